import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atLeast, convert, KNOT } from "../../shared/models/units.ts";
import { UNITS, type Unit } from "../../shared/protocol/quantity.ts";
import { must } from "./must.ts";

const KINDS: Unit[][] = [
  ["psi", "kPa", "bar", "inHg", "hPa"],
  ["degC", "degF"],
  ["s", "min", "h"],
  ["m", "ft", "mi"],
  ["kt", "m/s", "km/h"],
  ["lb", "kg"],
  ["L", "USgal"],
];
const kindOf = (unit: Unit) => KINDS.find((k) => k.includes(unit)) ?? [unit];
const to = (value: number, unit: Unit, other: Unit) => must(convert({ value, unit }, other)).value;

describe("units", () => {
  // NIST SP 811 appendix B.8; inHg there 3.386 389 kPa (conventional).
  it.each([
    [1, "psi", "kPa", 6.894757293168361],
    [1, "inHg", "hPa", 33.86388640341],
    [1, "bar", "kPa", 100],
    [1, "ft", "m", 0.3048],
    [1, "lb", "kg", 0.45359237],
    [1, "USgal", "L", 3.785411784],
    [90, "s", "min", 1.5],
    [2, "h", "min", 120],
    [1, "mi", "m", 1609.344],
    [36, "km/h", "m/s", 10],
    [900, "kt", "m/s", 463],
  ] as const)("[MOD-1] %f %s in %s", (value, unit, other, expected) => {
    expect(to(value, unit, other)).toBeCloseTo(expected, 12);
  });

  it("[MOD-1] a standard atmosphere is 29.921 inHg and 14.696 psi (ISO 2533: 1013.25 hPa)", () => {
    expect(to(1013.25, "hPa", "inHg")).toBeCloseTo(29.9213, 4);
    expect(to(1013.25, "hPa", "psi")).toBeCloseTo(14.69595, 5);
  });

  it("[MOD-1] a knot is 1852 m an hour (BIPM)", () => {
    expect(KNOT * 3600).toBeCloseTo(1852, 9);
  });

  // Pairs as sources print them, rounded to one decimal.
  it.each([
    [104, 40],
    [250, 121.1],
    [122, 50],
    [10, -12.2],
    [20, -6.7],
    [-40, -40],
    [32, 0],
    [212, 100],
  ])("[MOD-1] %f degF is %f degC", (f, c) => {
    expect(Math.round(to(f, "degF", "degC") * 10) / 10).toBe(c);
  });

  it("[MOD-1] 104 degF is 40 degC to the last digit and back", () => {
    expect(to(104, "degF", "degC")).toBe(40);
    expect(to(40, "degC", "degF")).toBe(104);
  });

  it("[MOD-1] a conversion there and back gives the same figure, in every kind", () => {
    const pair = fc
      .constantFrom(...UNITS)
      .chain((unit) => fc.tuple(fc.constant(unit), fc.constantFrom(...kindOf(unit))));
    fc.assert(
      fc.property(pair, fc.double({ min: -200, max: 1e6, noNaN: true }), ([unit, other], value) => {
        const back = to(to(value, unit, other), other, unit);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
      }),
      { seed: 811, numRuns: 500 },
    );
  });

  it("[MOD-1] a larger figure in one unit is larger in another", () => {
    const unit = fc.constantFrom(...KINDS.flat());
    fc.assert(
      fc.property(unit, fc.nat(20), fc.integer({ min: -200, max: 5000 }), (u, pick, value) => {
        const kind = kindOf(u);
        const other = kind[pick % kind.length] as Unit;
        expect(to(value + 1, u, other)).toBeGreaterThan(to(value, u, other));
      }),
      { seed: 812 },
    );
  });

  it("[MOD-1] every pair of different kinds is refused", () => {
    for (const a of UNITS) {
      for (const b of UNITS) {
        expect(convert({ value: 1, unit: a }, b).ok).toBe(kindOf(a).includes(b));
      }
    }
  });

  it("[MOD-1] the figure that was read is kept as it was read", () => {
    const read = Object.freeze({ value: 60, unit: "psi" as const });
    expect(must(convert(read, "kPa")).unit).toBe("kPa");
    expect(read).toEqual({ value: 60, unit: "psi" });
  });

  it("[MOD-36] below absolute zero, infinite and not a number are refused", () => {
    expect(convert({ value: -273.15, unit: "degC" }, "degF").ok).toBe(true);
    expect(convert({ value: -273.16, unit: "degC" }, "degF").ok).toBe(false);
    expect(convert({ value: -459.68, unit: "degF" }, "degF").ok).toBe(false);
    expect(convert({ value: Number.NaN, unit: "psi" }, "psi").ok).toBe(false);
    expect(convert({ value: Number.POSITIVE_INFINITY, unit: "m" }, "ft").ok).toBe(false);
  });

  it("[MOD-2] a limit printed as 20 degF and as both −6 and −7 degC is compared in its own unit", () => {
    const read = { value: -6.5, unit: "degC" as const };
    const beyond = (limit: number, unit: Unit) => must(atLeast(read, { value: limit, unit }));
    expect(beyond(20, "degF")).toBe(true);
    expect(beyond(-6, "degC")).toBe(false);
    expect(beyond(-7, "degC")).toBe(true);
  });

  it("[MOD-2] a figure converted there and back still reaches its own limit", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 3000, noNaN: true }), (value) => {
        const limit = { value, unit: "psi" as const };
        expect(must(atLeast(must(convert(limit, "kPa")), limit))).toBe(true);
        expect(must(atLeast({ value: value * 0.999, unit: "psi" }, limit))).toBe(false);
      }),
      { seed: 813 },
    );
  });
});
