import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BladeRule, bladesDue, bladesForEveryCylinder } from "../../shared/models/bladeCount.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import { must } from "./must.ts";

const hours = (value: number): Quantity => ({ value, unit: "h" });
const minutes = (value: number): Quantity => ({ value, unit: "min" });
const c = (value: number): Quantity => ({ value, unit: "degC" });
const three = { blades: 3, gearRatio: 9 / 16 };

/** FAA-H-8083-30 ch. 11: shut down more than 30 min, three to four complete revolutions. */
const amtGeneral: BladeRule = {
  method: "either",
  cases: [{ idle: { over: minutes(30) }, turn: { revolutions: 3, upTo: 4 } }],
};
/** A powerplant textbook: more than 30 min, at least two revolutions. */
const textbook: BladeRule = {
  method: "either",
  cases: [{ idle: { over: minutes(30) }, turn: { revolutions: 2 } }],
};
/**
 * 1946 US airline regulations 3032-5: an hour cold, three hours warm, three revolutions by hand. They do not define
 * cold: the test uses 5 °C.
 */
const airline1946: BladeRule = {
  method: "hand",
  cases: [
    { idle: { from: hours(1) }, air: { below: c(5) }, turn: { revolutions: 3 } },
    { idle: { from: hours(3) }, air: { from: c(5) }, turn: { revolutions: 3 } },
  ],
};
/** Engine maker's Specific Operating Instructions No. 72: 14 blades, 6 if stopped less than an hour. */
const oi72: BladeRule = {
  method: "starter",
  cases: [
    { idle: "always", turn: { blades: 6 } },
    { idle: { from: hours(1) }, turn: { blades: 14 } },
  ],
};
/** A.P. 2445D (1946): two revolutions by hand before each start. */
const ap2445: BladeRule = { method: "hand", cases: [{ idle: "always", turn: { revolutions: 2 } }] };
/** A twin-radial school's practice: nine blades, twelve if stopped more than four hours. */
const school: BladeRule = {
  method: "hand",
  cases: [
    { idle: "always", turn: { blades: 9 } },
    { idle: { over: hours(4) }, turn: { blades: 12 } },
  ],
};
/** Operators of a large 18-cylinder radial: 16 blades on the starter, twice two and then twelve. */
const large: BladeRule = {
  method: "starter",
  cases: [{ idle: "always", turn: { blades: 16 }, bouts: [2, 2, 12] }],
};
/** US Army TM 1-1500-204-23-1: standing and not run, on the third day eight revolutions. */
const standing: BladeRule = {
  method: "either",
  cases: [{ idle: { from: hours(72) }, turn: { revolutions: 8 } }],
};

const due = (rule: BladeRule, stood: Quantity | null, air: Quantity | null = c(15), propeller = three) => {
  const got = must(bladesDue(rule, propeller, stood, air));
  return got.due ? got.blades : 0;
};

describe("blade count", () => {
  it("[MOD-33] FAA-H-8083-30: at 30 min not due, at 31 due, three to four revolutions", () => {
    expect(due(amtGeneral, minutes(30))).toBe(0);
    expect(due(amtGeneral, minutes(31))).toBe(9);
    expect(due(amtGeneral, hours(0.5))).toBe(0);
    expect(must(bladesDue(amtGeneral, three, minutes(31), null))).toMatchObject({
      blades: 9,
      most: 12,
      method: "either",
    });
    expect(due(textbook, minutes(31))).toBe(6);
  });

  it("[MOD-33] 1946 airline rule: due after 1 h cold; warm not at 2 h 59, due at 3 h", () => {
    expect(due(airline1946, minutes(59), c(0))).toBe(0);
    expect(due(airline1946, hours(1), c(0))).toBe(9);
    expect(due(airline1946, minutes(179), c(20))).toBe(0);
    expect(due(airline1946, hours(3), c(20))).toBe(9);
    expect(due(airline1946, minutes(179), { value: 40, unit: "degF" })).toBe(9);
    expect(due(airline1946, minutes(179), { value: 41, unit: "degF" })).toBe(0);
  });

  it("[MOD-33] Operating Instructions 72: at 59 min six blades, from 60 min fourteen", () => {
    expect(due(oi72, minutes(59))).toBe(6);
    expect(due(oi72, minutes(60))).toBe(14);
    expect(due(oi72, hours(1))).toBe(14);
  });

  it("[MOD-33] one form of rule covers each start, practice counts, bouts and standing engines", () => {
    expect(due(ap2445, minutes(1))).toBe(6);
    expect(due(school, hours(4))).toBe(9);
    expect(due(school, minutes(241))).toBe(12);
    expect(must(bladesDue(large, three, hours(2), null))).toMatchObject({
      blades: 16,
      bouts: [2, 2, 12],
      method: "starter",
    });
    expect(due(standing, hours(71))).toBe(0);
    expect(due(standing, hours(72))).toBe(24);
    expect(due(standing, hours(72), null, { blades: 4, gearRatio: 0.5 })).toBe(32);
  });

  it("[MOD-33] the printed rules disagree for one engine at one time, so the type chooses its rule", () => {
    const counts = [amtGeneral, textbook, airline1946, oi72, ap2445, school, large, standing].map((r) =>
      due(r, hours(2)),
    );
    expect(counts).toEqual([9, 6, 0, 14, 6, 9, 16, 0]);
  });

  it("[MOD-34] an unknown time or temperature makes the count due", () => {
    expect(due(amtGeneral, null)).toBe(9);
    expect(due(oi72, null)).toBe(14);
    expect(due(airline1946, hours(1), null)).toBe(9);
    expect(due(airline1946, minutes(59), null)).toBe(0);
  });

  it("[MOD-33] a longer standstill never needs fewer blades (property)", () => {
    const minute = fc.integer({ min: 0, max: 6000 });
    const rule = fc.constantFrom(amtGeneral, airline1946, oi72, ap2445, school, large, standing);
    fc.assert(
      fc.property(rule, minute, minute, fc.integer({ min: -20, max: 30 }), (r, a, b, air) => {
        const [short, long] = [Math.min(a, b), Math.max(a, b)];
        expect(due(r, minutes(short), c(air))).toBeLessThanOrEqual(due(r, minutes(long), c(air)));
        expect(due(r, minutes(long), c(air))).toBeLessThanOrEqual(due(r, null, c(air)));
      }),
      { seed: 72 },
    );
  });

  // Two crankshaft revolutions compress every cylinder of a four-stroke once: arithmetic of the gears.
  it.each([
    [2, 1, 4],
    [3, 1, 6],
    [3, 9 / 16, 4],
    [3, 2 / 3, 4],
    [3, 1 / 2, 3],
    [4, 1 / 2, 4],
    [4, 7 / 16, 4],
  ])(
    "[MOD-35] %i blades at %f propeller revolutions per crankshaft revolution: %i blades",
    (blades, gearRatio, count) => {
      expect(must(bladesForEveryCylinder({ blades, gearRatio }))).toBe(count);
    },
  );

  it("[MOD-35] a count too low for every cylinder is reported so", () => {
    const few: BladeRule = { method: "hand", cases: [{ idle: "always", turn: { blades: 5 } }] };
    const covers = (gearRatio: number) => {
      const got = must(bladesDue(few, { blades: 3, gearRatio }, hours(1), null));
      return got.due && got.everyCylinder;
    };
    expect(covers(1)).toBe(false);
    expect(covers(9 / 16)).toBe(true);
  });

  it("[MOD-36] impossible propellers, negative times and figures of another kind are refused", () => {
    expect(bladesDue(amtGeneral, { blades: 1, gearRatio: 0.5 }, hours(1), null).ok).toBe(false);
    expect(bladesDue(amtGeneral, { blades: 3, gearRatio: 16 / 9 }, hours(1), null).ok).toBe(false);
    expect(bladesDue(amtGeneral, three, hours(-1), null).ok).toBe(false);
    expect(bladesDue(amtGeneral, three, c(10), null).ok).toBe(false);
    expect(bladesDue(airline1946, three, hours(2), hours(2)).ok).toBe(false);
  });
});
