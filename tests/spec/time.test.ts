import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bestSample, type ClockSample, clockSample, keepSample } from "../../shared/models/clock.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { ed, given } from "./given.ts";

interface Vectors {
  source: string;
  exchanges: { t: [number, number, number, number]; offset: number; delay: number }[];
}
const vectors = JSON.parse(readFileSync(new URL("vectors/clock.json", import.meta.url), "utf8")) as Vectors;

describe("clock exchange", () => {
  it.each(vectors.exchanges)(
    "[TIM-4] RFC 5905 section 8: $t gives offset $offset, delay $delay",
    ({ t, offset, delay }) => {
      const [t1, t2, t3, t4] = t;
      expect(clockSample({ t1, t2, t3, t4 })).toEqual({ offset, delay });
    },
  );

  it.each([
    ["T4 before T1", { t1: 100, t2: 0, t3: 0, t4: 99 }],
    ["T3 before T2", { t1: 0, t2: 10, t3: 9, t4: 20 }],
    ["a negative delay", { t1: 0, t2: 0, t3: 30, t4: 20 }],
  ])("[TIM-4] %s is no sample", (_, exchange) => {
    expect(clockSample(exchange)).toBeNull();
  });

  it("[TIM-4] the true offset lies within half the delay, also when the two ways differ", () => {
    for (const [there, back] of [
      [5, 205],
      [205, 5],
      [0, 100],
    ] as const) {
      const sample = clockSample({ t1: 1000, t2: 1000 + there, t3: 1000 + there, t4: 1000 + there + back });
      expect(Math.abs(sample?.offset ?? Number.NaN)).toBeLessThanOrEqual((sample?.delay ?? 0) / 2);
    }
  });

  it("[TIM-4] of the last eight samples the one with the least delay counts", () => {
    const of = (delay: number): ClockSample => ({ offset: delay * 2, delay });
    const kept = [1, 9, 8, 7, 6, 5, 4, 3, 2]
      .map(of)
      .reduce<ClockSample[]>((all, s) => keepSample(all, s), []);
    expect(kept).toHaveLength(8);
    expect(bestSample(kept)).toEqual(of(2));
    expect(bestSample([])).toBeNull();
  });
});

describe("restart and clock", () => {
  const stops = () => {
    const story = given().upTo("starting").guarded(3);
    story.does(ed, { type: "send", kind: "hold" });
    story.does(ed, { type: "send", kind: "cut", engine: 1 });
    story.does(ed, { type: "send", kind: "fire", engine: 2 });
    return story;
  };

  it("[TIM-3] a restart keeps holds, cuts, fires and reports", () => {
    const story = stops();
    const before = story.state;
    story.restart();
    for (const key of [
      "holds",
      "cuts",
      "fires",
      "guard",
      "arcs",
      "brakes",
      "chocks",
      "groundPower",
    ] as const) {
      expect(story.state[key]).toEqual(before[key]);
    }
    expect(story.state.epoch).toBe(before.epoch + 1);
  });

  it("[TIM-3] no clearance is left after a restart", () => {
    const story = given().upTo("starting");
    story.readBack(3);
    story.restart();
    expect(story.state.engines.some((e) => e.life.is === "clear")).toBe(false);
  });

  it("[EVT-7] the log's time does not run backwards with the clock", () => {
    const story = given().upTo("starting");
    story.clockStep(-3_600_000);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    const times = story.log.map((e) => e.at);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  it("[EVT-7, CLR-7] a clock that went back unannounced voids the clearance before anything else", () => {
    const story = given().upTo("starting");
    const clearance = story.readBack(3);
    story.now -= 60_000;
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(story.turnsUncleared(3)).toBe(true);
    expect(story.told("clockStepped")).toEqual([{ type: "clockStepped", by: -60_000 }]);
    expect(story.told("clearanceVoid")).toMatchObject([{ cause: "epoch" }]);
  });

  it("[EVT-7] events up to a second out of order are no step of the clock", () => {
    const story = given().upTo("starting");
    const clearance = story.readBack(3);
    story.now -= 1_000;
    expect(story.send("cockpit", "cranking", { engine: 3, ref: clearance }).refusal).toBeUndefined();
    expect(story.told("clockStepped")).toEqual([]);
  });
});

describe("deadlines", () => {
  it("[TIM-1] a quiet session has none", () => {
    const story = given().manned();
    expect(nextDeadline(story.state)).toBeNull();
    expect(story.wait(86_400).told("late")).toEqual([]);
  });

  it("[TIM-1] come from the read-back, then from the clearance's conditions, then from its end", () => {
    const story = given().upTo("starting");
    story.cleared(3);
    expect(nextDeadline(story.state)).toBe(story.now + 5_000);
    story.wait(5);
    expect(nextDeadline(story.state)).toBe(story.now + 25_000);
  });
});
