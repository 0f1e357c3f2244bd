import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Band, gaugeBand, type Marks } from "../../shared/models/gaugeBand.ts";
import {
  oilPressureVerdicts,
  type PressureProfile,
  type PressureReading,
} from "../../shared/models/oil/oilPressure.ts";
import { bandFor } from "../../shared/models/temperatureBand.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import { must } from "./must.ts";

const psi = (value: number) => ({ value, unit: "psi" as const });
const profile = (first: [number, number], normal: [number, number]): PressureProfile => ({
  firstIndication: { atLeast: psi(first[0]), within: { value: first[1], unit: "s" } },
  normal: { atLeast: psi(normal[0]), within: { value: normal[1], unit: "s" } },
});
/**
 * 1946 US airline operations regulations 3033-8: indication in 5 s, normal in 10 s. The pressures stand for those of a
 * type.
 */
const airline1946 = profile([10, 5], [60, 10]);
/** FAA AC 61-21: pressure within 30 s in summer, 60 s in winter. */
const summer = profile([10, 30], [10, 30]);
const winter = profile([10, 60], [10, 60]);
const trace = (...points: [number, number][]): PressureReading[] =>
  points.map(([seconds, value]) => ({ seconds, pressure: psi(value) }));
const states = (p: PressureProfile, t: PressureReading[], elapsed: number) => {
  const got = must(oilPressureVerdicts(p, t, elapsed));
  return [got.firstIndication.state, got.normal.state];
};

describe("oil pressure after the catch", () => {
  it("[MOD-27] indication at 5 s passes, after 5 s it is late; normal at 10 s passes, after it is late", () => {
    expect(states(airline1946, trace([5, 12], [10, 62]), 12)).toEqual(["inTime", "inTime"]);
    expect(states(airline1946, trace([5.1, 12], [10.1, 62]), 12)).toEqual(["late", "late"]);
    expect(states(airline1946, trace([2, 12], [10, 59]), 10.1)).toEqual(["inTime", "late"]);
    expect(states(airline1946, trace([2, 65]), 3)).toEqual(["inTime", "inTime"]);
  });

  it("[MOD-27] the two time limits are independent, and also pass without any reading", () => {
    expect(states(airline1946, [], 5)).toEqual(["waiting", "waiting"]);
    expect(states(airline1946, [], 5.1)).toEqual(["late", "waiting"]);
    expect(states(airline1946, [], 10.1)).toEqual(["late", "late"]);
  });

  it("[MOD-27] one trace is late by the 1946 rule and in time by AC 61-21, in summer and in winter", () => {
    const slow = trace([4, 0], [20, 12], [24, 61]);
    expect(states(airline1946, slow, 25)).toEqual(["late", "late"]);
    expect(states(summer, slow, 25)).toEqual(["inTime", "inTime"]);
    const slower = trace([29, 0], [45, 15]);
    expect(states(summer, slower, 45)).toEqual(["late", "late"]);
    expect(states(winter, slower, 45)).toEqual(["inTime", "inTime"]);
  });

  it("[MOD-20, MOD-27] the profile is picked by the air's temperature", () => {
    const bands = [
      { upTo: { value: 0, unit: "degC" as const }, use: winter },
      { upTo: null, use: summer },
    ];
    expect(must(bandFor(bands, { value: 32, unit: "degF" }))).toBe(winter);
    expect(must(bandFor(bands, { value: 33, unit: "degF" }))).toBe(summer);
  });

  it("[MOD-27] gives the time of the reading that showed it, never a time between readings", () => {
    const got = must(oilPressureVerdicts(airline1946, trace([4, 9], [6, 80]), 7));
    expect(got.firstIndication).toEqual({ state: "late", at: 6 });
    expect(got.normal).toEqual({ state: "inTime", at: 6 });
  });

  it("[MOD-27] a verdict once late stays late as time goes on, once in time stays in time (property)", () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 15 }), fc.integer({ min: 0, max: 90 })), {
      maxLength: 10,
    });
    fc.assert(
      fc.property(points, (raw) => {
        const sorted = trace(...raw.sort((a, b) => a[0] - b[0]));
        let before = ["waiting", "waiting"];
        for (let now = 0; now <= 16; now += 1) {
          const seen = sorted.filter((r) => r.seconds <= now);
          const after = states(airline1946, seen, now);
          for (const [i, state] of before.entries()) {
            if (state === "inTime" || state === "late") expect(after[i]).toBe(state);
          }
          before = after;
        }
        expect(before).not.toContain("waiting");
      }),
      { seed: 3033 },
    );
  });

  it("[MOD-27] bar against a limit in psi", () => {
    const bar = [{ seconds: 3, pressure: { value: 4.2, unit: "bar" as const } }];
    expect(states(airline1946, bar, 4)).toEqual(["inTime", "inTime"]);
  });

  it("[MOD-36] a trace out of order, ahead of the clock or in degrees is refused", () => {
    const refused = (t: PressureReading[], elapsed: number) =>
      !oilPressureVerdicts(airline1946, t, elapsed).ok;
    expect(refused(trace([4, 1], [3, 1]), 9)).toBe(true);
    expect(refused(trace([-1, 1]), 9)).toBe(true);
    expect(refused(trace([4, 1]), 3)).toBe(true);
    expect(refused(trace([Number.NaN, 1]), 3)).toBe(true);
    expect(refused([{ seconds: 1, pressure: { value: 40, unit: "degC" } }], 3)).toBe(true);
    expect(refused([], Number.NaN)).toBe(true);
  });
});

describe("gauge bands", () => {
  const scale = (from: number, to: number) => ({ from, to, step: 1 });
  // AAF Manual 50-16 (C-46), instrument-marking table, min, green and max.
  const oil: Marks = {
    name: "oil inlet",
    unit: "degC",
    scale: scale(-70, 150),
    min: 40,
    normalLow: 80,
    normalHigh: 90,
    max: 93,
  };
  const oilPressure: Marks = {
    name: "oil",
    unit: "psi",
    scale: scale(0, 200),
    min: 25,
    normalLow: 80,
    normalHigh: 90,
    max: 100,
  };
  const cht: Marks = {
    name: "CHT",
    unit: "degC",
    scale: scale(0, 350),
    min: 120,
    normalLow: 120,
    normalHigh: 232,
    max: 260,
  };
  const fuel: Marks = {
    name: "fuel",
    unit: "psi",
    scale: scale(0, 25),
    min: 14,
    normalLow: 16,
    normalHigh: 18,
    max: 19,
  };
  const suction: Marks = {
    name: "suction",
    unit: "inHg",
    scale: scale(0, 10),
    normalLow: 4.3,
    normalHigh: 4.8,
    max: 4.8,
  };

  it.each<[Marks, number, Unit, Band]>([
    [oil, 39, "degC", "belowMin"],
    [oil, 40, "degC", "usable"],
    [oil, 79, "degC", "usable"],
    [oil, 80, "degC", "normal"],
    [oil, 90, "degC", "normal"],
    [oil, 91, "degC", "caution"],
    [oil, 93, "degC", "caution"],
    [oil, 94, "degC", "over"],
    [oil, 104, "degF", "usable"],
    [oil, 103.9, "degF", "belowMin"],
    [oilPressure, 24, "psi", "belowMin"],
    [oilPressure, 79, "psi", "usable"],
    [oilPressure, 101, "psi", "over"],
    [cht, 119, "degC", "belowMin"],
    [cht, 120, "degC", "normal"],
    [cht, 233, "degC", "caution"],
    [fuel, 18.5, "psi", "caution"],
    [suction, 4.2, "inHg", "usable"],
    [suction, 4.8, "inHg", "normal"],
    [suction, 4.9, "inHg", "over"],
  ])("[MOD-28] %# %o at %f %s is %s", (marks, value, unit, band) => {
    expect(must(gaugeBand(marks, { value, unit }))).toBe(band);
  });

  it("[MOD-28] a mark that is not given makes no band", () => {
    const bare: Marks = { name: "rpm", unit: "rpm", scale: scale(0, 3500) };
    expect(must(gaugeBand(bare, { value: 3000, unit: "rpm" }))).toBe("normal");
    expect(must(gaugeBand({ ...bare, max: 2700 }, { value: 2700, unit: "rpm" }))).toBe("normal");
    expect(must(gaugeBand({ ...bare, max: 2700 }, { value: 2701, unit: "rpm" }))).toBe("over");
    expect(must(gaugeBand({ ...bare, min: 450 }, { value: 450, unit: "rpm" }))).toBe("normal");
  });

  it("[MOD-28] a higher reading is never in a lower band (property)", () => {
    const order: Band[] = ["belowMin", "usable", "normal", "caution", "over"];
    const reading = fc.double({ min: -70, max: 150, noNaN: true });
    fc.assert(
      fc.property(reading, reading, (a, b) => {
        const at = (value: number) => order.indexOf(must(gaugeBand(oil, { value, unit: "degC" })));
        expect(at(Math.min(a, b))).toBeLessThanOrEqual(at(Math.max(a, b)));
      }),
      { seed: 46 },
    );
  });

  it("[MOD-28, MOD-36] a reading off the scale is an error and gets no band", () => {
    expect(gaugeBand(oil, { value: 151, unit: "degC" }).ok).toBe(false);
    expect(gaugeBand(oil, { value: -71, unit: "degC" }).ok).toBe(false);
    expect(gaugeBand(oil, { value: 80, unit: "psi" }).ok).toBe(false);
    expect(gaugeBand(oil, { value: Number.NaN, unit: "degC" }).ok).toBe(false);
  });
});
