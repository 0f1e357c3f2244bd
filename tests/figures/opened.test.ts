import { expect, it } from "vitest";
import type { Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { figuresNow, figuresOfAircraft, figuresOfEngine } from "../../shared/figures/all.ts";
import type { Figure } from "../../shared/figures/figure.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { figures as english } from "../../shared/words/en/figures.ts";
import { figures as spanish } from "../../shared/words/es/figures.ts";
import { wordsOf } from "../../shared/words/piece.ts";
import { workedBook } from "../../shared/words/worked.ts";
import { Day } from "../seed/day.ts";
import { playOut } from "../seed/stage.ts";
import { given } from "../spec/given.ts";

const SCRIPT = { seed: 3, pace: 1, cart: "Bal Maiden" };
/** Every fifth state: figures change with the stages and the readings, not with each touch. */
const EACH = 5;

function statesOf(stage: Stage): SessionState[] {
  const states: SessionState[] = [];
  let state: SessionState | null = null;
  for (const event of stage.events) {
    state = evolve(state, event);
    states.push(state);
  }
  return states.filter((_, i) => i % EACH === 0);
}

/** The states of a whole start of each demo type, and of the return after it. */
function walked(): SessionState[] {
  return demo.types.flatMap((type) => {
    const day = new Day(type);
    return (["start", "return"] as const).flatMap((purpose) => {
      const stage = day.plan({ purpose });
      expect(playOut(stage, SCRIPT)).toBeNull();
      day.after(stage, 1);
      return statesOf(stage);
    });
  });
}

const figuresIn = (state: SessionState): Figure[] => [
  ...figuresNow(state, "cockpit", state.at),
  ...figuresOfAircraft(state, state.at),
  ...state.engines.flatMap((e) => figuresOfEngine(state, e.n, state.at)),
];

/** Returns the parts that one figure lacks in one language. */
function lacks(f: Figure, language: "en" | "es"): string[] {
  const inWords = (text: string) => wordsOf(workedBook(language)(text)).trim();
  const names: Readonly<Record<string, string>> = language === "en" ? english.names : spanish.names;
  return [
    ...(names[f.words] ? [] : ["its name"]),
    ...(f.inputs.length > 0 ? [] : ["inputs"]),
    ...f.inputs.flatMap((i) => (inWords(i.name) === "" ? ["the name of an input"] : [])),
    ...f.inputs.flatMap((i) => (inWords(i.source) === "" ? [`the source of ${i.name}`] : [])),
    ...(inWords(f.equation) === "" ? ["its law"] : []),
    ...(inWords(f.source) === "" ? ["the law's source"] : []),
  ].map((what) => `${language} ${f.words}: ${what}`);
}

/** Figures of weather, lightning and neighbours, which the partners' sessions are not told of. */
function told(): SessionState[] {
  const [four] = demo.types;
  if (!four) throw new Error("the demo has types");
  const neighbours = (["fuelling", "building", "aircraft", "public"] as const).map((kind, i) => ({
    ...{ kind, name: kind, bearingDeg: 90 * i },
    ...{ distance: { value: 30, unit: "m" as const }, across: { value: 20, unit: "m" as const } },
  }));
  const story = given({ type: four, more: { headingDeg: 250, elevationFt: 300, neighbours } }).manned();
  const states: SessionState[] = [];
  for (const [temperatureC, dewPointC, fromDeg] of [
    [22, 5, 70],
    [15, -10, 160],
    [-20, -22, 340],
    [12, 3, 250],
    [35, 30, 70],
  ] as const) {
    const air = { windKt: 12, fromDeg, temperatureC, dewPointC, qnhHpa: 1013 };
    story.say("supervisor", { type: "recordWeather", ...air });
    states.push(story.state);
  }
  story.say("cockpit", { type: "recordFlash", miles: 4 });
  return [...states, story.state];
}

/** Figures that none of these sessions comes to. Each has its own test. */
const NOT_MET = [
  "groundPowerStarting",
  "icing.notKnown",
  "preheat.done",
  "above",
  "bladesNext.none",
  "oilDilution.none",
  "lightning.none",
  "noise",
];

it("[FIG-1] [LNG-8] every figure of a start and a return opens to its inputs, its law and its sources, in both languages", {
  timeout: 120_000,
}, () => {
  const all = [...walked(), ...told()].flatMap(figuresIn);
  const wrong = all.flatMap((f) => [...lacks(f, "en"), ...lacks(f, "es")]);
  expect([...new Set(wrong)]).toEqual([]);
  // The test sees a lack: a figure without its parts.
  const [first] = all;
  const bare = { ...(first as Figure), inputs: [], equation: "", source: " " };
  expect(lacks(bare, "es").map((l) => l.split(": ")[1])).toEqual(["inputs", "its law", "the law's source"]);
  const met = new Set(all.map((f) => f.words));
  expect(Object.keys(english.names).filter((n) => !met.has(n))).toEqual(NOT_MET);
});
