import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { leftAsWritten, stateIn, typeIn, untranslated } from "../../shared/words/authored.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { lookupOf, sayEvent } from "../../shared/words/events.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { wordsOf } from "../../shared/words/piece.ts";
import { typeFaults } from "../../web/words/es/typeFaults.ts";
import { drill, drilled } from "../safety/types.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";

/** Returns every text of a type that a panel shows, as it is in the type. */
const texts = ({ gauges, checks, drills }: AircraftType): string[] => [
  ...gauges.map((g) => g.name),
  ...checks.map((c) => c.words),
  ...drills.flatMap((d) => [d.title, ...POSTS.flatMap((p) => d.cards[p].map((s) => s.words))]),
];

describe.each(demo.types)("the demo's $id", (type) => {
  it("[LNG-14] has each text in Spanish, in the place of the English one", () => {
    expect(untranslated(type)).toEqual([]);
    expect(leftAsWritten(type, "es").size).toBe(0);
    const [before, after] = [texts(type), texts(typeIn(type, "es"))];
    expect(before.length).toBeGreaterThan(100);
    expect(after).toHaveLength(before.length);
    expect(before.filter((words, i) => words === after[i])).toEqual([]);
    // One English text has one Spanish text, in every type.
    const said = new Map(before.map((words, i) => [words, after[i]]));
    expect(before.filter((words, i) => said.get(words) !== after[i])).toEqual([]);
  });

  it("[LNG-14] keeps each figure of a text, and its question or its end", () => {
    const figures = (text: string) => text.match(/\d+/g) ?? [];
    const after = texts(typeIn(type, "es"));
    texts(type).forEach((words, i) => {
      expect(figures(after[i] ?? ""), words).toEqual(figures(words));
      expect(/[.?!]$/.test(after[i] ?? ""), words).toBe(/[.?!]$/.test(words));
    });
  });

  it("[LNG-14] changes nothing but texts, and nothing at all in English", () => {
    const told = typeIn(type, "es");
    const bare = (t: AircraftType) =>
      JSON.stringify(t, (key, value) => (["words", "title", "name"].includes(key) ? null : value));
    expect(bare(told)).toBe(bare(type));
    expect(typeIn(type, "en")).toBe(type);
    expect(typeIn(type, "es")).toBe(told);
    expect("type" in readAircraftType(told)).toBe(true);
  });
});

it("[LNG-14] every drill of the demo and its steps are asked and recorded in Spanish", () => {
  const type = demo.types.find((t) => t.id === "kestle-four") as AircraftType;
  const authored = texts(type);
  const story = given({ type }).manned();
  for (const { id } of type.drills) story.say("supervisor", { type: "startDrill", drill: id });
  const shown = stateIn(story.state, "es");
  expect(shown.drills).toBe(story.state.drills);
  const lookup = lookupOf(story.log, spanish);
  const lines = [
    ...shown.type.drills.map((d) => d.title),
    ...story.log.map((event) => sayEvent(event, lookup)),
    ...POSTS.flatMap((post) => askedOf(shown, post, story.now).map((a) => spanish.ask(a))),
  ];
  expect(lines).toContain("Mantenga lejos a todos los demás");
  for (const line of lines) expect(authored.filter((w) => line.includes(w))).toEqual([]);
});

describe("a type without Spanish", () => {
  const type = drilled(drill("Slipping", "manual"));

  it("[LNG-14] is taken, and its author is told of each text by its path", () => {
    expect("type" in readAircraftType(type)).toBe(true);
    const told = untranslated(type);
    expect(told).toHaveLength(texts(type).length);
    expect(told).toContainEqual({ path: "gauges.0.nameEs", message: "no Spanish yet: oilPressure" });
    expect(told).toContainEqual({
      path: "drills.0.cards.cockpit.1.wordsEs",
      message: "no Spanish yet: second",
    });
    expect(wordsOf(phraseBook(typeFaults)("no Spanish yet: Walk round"))).toBe(
      "todavía sin español: Walk round",
    );
  });

  it("[LNG-14] stays as written, and is known to be", () => {
    expect(texts(typeIn(type, "es"))).toEqual(texts(type));
    expect(leftAsWritten(typeIn(type, "es"), "es")).toEqual(new Set(texts(type)));
    expect(leftAsWritten(type, "en").size).toBe(0);
  });

  it("[LNG-14] with one text in Spanish shows that one, and leaves the others", () => {
    const [first, ...rest] = FOUR.checks;
    if (!first) throw new Error("no check");
    const some: AircraftType = { ...FOUR, checks: [{ ...first, wordsEs: "Botellas cargadas" }, ...rest] };
    expect(
      typeIn(some, "es")
        .checks.map((c) => c.words)
        .slice(0, 2),
    ).toEqual(["Botellas cargadas", "Walk round"]);
    expect(leftAsWritten(some, "es").has("Bottles charged")).toBe(false);
    expect(english.language).toBe("en");
  });
});
