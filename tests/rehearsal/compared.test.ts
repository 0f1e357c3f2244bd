import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { type Comparison, measuresOf } from "../../shared/rehearsal/measures.ts";
import { evolve } from "../../shared/session/evolve.ts";
import { sayCompared } from "../../shared/words/compared.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { START } from "../http/hand-clock.ts";
import { testServer } from "../http/test-server.ts";
import { readPdf } from "../print/reader.ts";
import { storeStory } from "../store/chained.ts";
import { guardedBy, played } from "./finished.ts";
import { Both } from "./world.ts";

const theatre = played();
const DAY = 86_400_000;

let both: Both;
beforeEach(async () => {
  both = await new Both(await testServer()).begin();
});
afterEach(() => both.test.close());

/** Stores the same rehearsal under another id, changed by `change`. */
async function stored(n: number, person: string, at: number, change = (e: SessionEvent) => e) {
  const session = `rehearsal-${n}`;
  const log = guardedBy(theatre, person, at).map((e) => change({ ...e, session }));
  const state = log.reduce<ReturnType<typeof evolve> | null>(evolve, null);
  if (!state) throw new Error("no events");
  await storeStory(both.test.services.store, { state, log }, `R-TESTA${n}`);
  return session;
}
const compared = async (id: string, who: string) =>
  (await both.ask("GET", `/rehearsals/${id}/compared`, who)).json() as Comparison;

const otherScript = (e: SessionEvent): SessionEvent =>
  e.fact.type === "planned" && e.fact.rehearsal?.played
    ? {
        ...e,
        fact: {
          ...e.fact,
          rehearsal: { ...e.fact.rehearsal, played: { ...e.fact.rehearsal.played, airC: 3 } },
        },
      }
    : e;

describe("a rehearsal beside the last runs", () => {
  it("[RHS-50] stands beside the last three of the same person, post, script and type, the newest first", async () => {
    const at = (n: number) => START - (10 - n) * DAY;
    const all = [];
    for (const n of [1, 2, 3, 4]) all.push(await stored(n, "bo", at(n)));
    await stored(5, "bo", at(5), otherScript);
    await stored(6, "cy", at(6));
    const last = await stored(7, "bo", at(7));
    const { people, takenBack } = await compared(last, "bo");
    expect(takenBack).toBe(false);
    expect(people.map(({ name, post }) => [name, post])).toEqual([["Bo", "fireGuard"]]);
    expect(people[0]?.before.map(({ session }) => session)).toEqual([all[3], all[2], all[1]]);
    expect(people[0]?.now).toEqual(measuresOf(theatre.events));
    expect((await compared(last, "di")).people).toEqual(people);
    expect((await compared(last, "ada")).people).toEqual([]);
    expect((await compared(all[0] ?? "", "bo")).people[0]?.before).toEqual([]);
    expect((await both.ask("GET", `/rehearsals/${both.start}/compared`)).statusCode).toBe(404);
    expect((await both.ask("GET", `/rehearsals/${both.rehearsal}/compared`)).statusCode).toBe(404);
  });

  it("[RHS-50] is printed with the record for whom it concerns, and says where there was none", async () => {
    const first = await stored(1, "bo", START - 2 * DAY);
    const second = await stored(2, "bo", START - DAY);
    const print = async (id: string, who: string) => {
      const url = `/api/sessions/${id}/record.pdf`;
      const headers = { authorization: `Bearer ${await both.token(who)}` };
      const { rawPayload } = await both.test.app.inject({ method: "GET", url, headers });
      return (await readPdf(rawPayload)).solid;
    };
    expect(await print(first, "bo")).toContain("Noearlierrunofthisscriptatthispost");
    const own = await print(second, "bo");
    expect(own).toContain("Hotteststarter");
    expect(own).not.toContain("Noearlierrun");
    expect(await print(second, "ada")).not.toContain("Hotteststarter");
    expect(await print(both.start, "bo")).not.toContain("Besidethelastruns");
  });

  it("[RHS-50] that was taken back stands beside none, and none beside it", async () => {
    const back = (e: SessionEvent): SessionEvent =>
      e.fact.type === "planned" && e.fact.rehearsal
        ? {
            ...e,
            fact: {
              ...e.fact,
              rehearsal: { ...e.fact.rehearsal, back: { session: "rehearsal-x", seq: 3, later: 0 } },
            },
          }
        : e;
    const taken = await stored(1, "bo", START - 2 * DAY, back);
    const whole = await stored(2, "bo", START - DAY);
    expect(await compared(taken, "bo")).toEqual({ takenBack: true, people: [] });
    expect((await compared(whole, "bo")).people[0]?.before).toEqual([]);
  });

  it("[RHS-50] says each measure in a line of its own, and adds none to another", () => {
    const now = measuresOf(theatre.events);
    const before = { ...now, answered: { oilLost: 7.25, kickback: null }, refused: 3, starterK: 90 };
    const one = {
      name: "Bo",
      post: "fireGuard",
      now,
      before: [{ session: "s", at: START, measures: before }],
    } as const;
    const { heads, rows, none } = sayCompared({ ...one, before: [...one.before] }, SPOKEN.en);
    expect(none).toBeNull();
    expect(heads).toHaveLength(2);
    const cells = (measure: string) => rows.find((r) => r.measure === measure)?.cells;
    expect(cells("Answer to oil pressure lost")).toEqual(["–", "7.3 s"]);
    expect(cells("Answer to kickback")).toEqual(["–", "none"]);
    expect(cells("Refused")).toEqual(["0", "3"]);
    expect(cells("Hottest starter")?.[1]).toBe("90 K");
    expect(rows.every((r) => r.cells.length === 2)).toBe(true);
    for (const say of Object.values(SPOKEN))
      expect(sayCompared({ ...one, before: [] }, say).none).not.toBeNull();
  });
});
