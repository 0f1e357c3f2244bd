import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Battery,
  capacityRatio,
  chargeFromVolts,
  emptyVolts,
  openCircuitVolts,
} from "../../shared/models/electrical/battery.ts";
import {
  AIRCRAFT_CHARGE,
  AUTOMOTIVE_CHARGE,
  chargeClass,
  crankingPower,
  gravityAt80F,
} from "../../shared/models/electrical/specificGravity.ts";
import { must } from "./must.ts";

const leadAcid: Battery = {
  chemistry: "leadAcid",
  cells: 12,
  full: 1.27,
  empty: 1.15,
  voltsPerKelvin: 0.0002,
};
const nickelCadmium: Battery = { chemistry: "nickelCadmium", cells: 20, cellVolts: 1.27 };

describe("specific gravity", () => {
  // Worked examples of engine-generator service manuals; the last by the US Navy's point per 3 °F.
  it.each([
    [1.25, 20, "fourPointsPer10F", 1.226],
    [1.235, 100, "fourPointsPer10F", 1.243],
    [1.25, 90, "fourPointsPer10F", 1.254],
    [1.25, 70, "fourPointsPer10F", 1.246],
    [1.282, 65, "onePointPer3F", 1.277],
  ] as const)("[MOD-3] %f at %f degF by %s is %f", (read, degF, rule, expected) => {
    expect(must(gravityAt80F(read, degF, rule))).toBeCloseTo(expected, 9);
  });

  // Points to add, 160 to 0 °F, as printed in engine-generator service manuals. One copy prints +20 at 30 °F: a lost
  // minus sign, because the arithmetic gives −20. −10 to −30 °F: FAA-H-8083-31A ch. 9, from memory.
  it.each([
    [160, 32],
    [150, 28],
    [140, 24],
    [130, 20],
    [120, 16],
    [110, 12],
    [100, 8],
    [90, 4],
    [80, 0],
    [70, -4],
    [60, -8],
    [50, -12],
    [40, -16],
    [30, -20],
    [20, -24],
    [10, -28],
    [0, -32],
    [-10, -36],
    [-20, -40],
    [-30, -44],
  ])("[MOD-3] at %i degF %i points are added", (degF, points) => {
    expect((must(gravityAt80F(1.25, degF, "fourPointsPer10F")) - 1.25) * 1000).toBeCloseTo(points, 9);
  });

  it("[MOD-3] the two printed rules differ: at 20 degF by 4 points", () => {
    const four = must(gravityAt80F(1.25, 20, "fourPointsPer10F"));
    expect(must(gravityAt80F(1.25, 20, "onePointPer3F")) - four).toBeCloseTo(0.004, 9);
  });

  it("[MOD-36] gravities of no acid and temperatures off the table are refused", () => {
    for (const [read, degF] of [
      [0.99, 80],
      [1.41, 80],
      [1.25, -31],
      [1.25, 161],
      [Number.NaN, 80],
    ] as const) {
      expect(gravityAt80F(read, degF, "fourPointsPer10F").ok).toBe(false);
    }
  });

  // FAA-H-8083-31A ch. 9, from memory; boundaries belong to the higher class.
  it.each([
    [1.3, "high"],
    [1.275, "high"],
    [1.274, "medium"],
    [1.24, "medium"],
    [1.239, "low"],
    [1.2, "low"],
  ])("[MOD-4] an aircraft battery at %f is %s", (gravity, name) => {
    expect(must(chargeClass(gravity, AIRCRAFT_CHARGE))).toBe(name);
  });

  // Engine-generator service manuals: both ends of each printed class.
  it.each([
    [1.28, 1.26, "full"],
    [1.25, 1.23, "threeQuarters"],
    [1.22, 1.2, "half"],
    [1.19, 1.17, "quarter"],
    [1.16, 1.14, "almostDischarged"],
    [1.13, 1.11, "discharged"],
  ])("[MOD-4] %f and %f are %s", (high, low, name) => {
    expect(must(chargeClass(high, AUTOMOTIVE_CHARGE))).toBe(name);
    expect(must(chargeClass(low, AUTOMOTIVE_CHARGE))).toBe(name);
  });

  it("[MOD-4] takes the lower of two printed classes between them, and gives no class off the table", () => {
    expect(must(chargeClass(1.255, AUTOMOTIVE_CHARGE))).toBe("threeQuarters");
    expect(chargeClass(1.281, AUTOMOTIVE_CHARGE).ok).toBe(false);
    expect(chargeClass(1.199, AIRCRAFT_CHARGE).ok).toBe(false);
  });

  // TM 5-1185 Table IV at 80 °F.
  it.each([
    [1.28, 100],
    [1.27, 91.6],
    [1.26, 83.3],
    [1.25, 75],
    [1.24, 66.6],
    [1.23, 58.3],
    [1.22, 50],
  ])("[MOD-5] at %f the cranking power is %f percent", (gravity, percent) => {
    expect(Math.abs(must(crankingPower(gravity)) - percent)).toBeLessThanOrEqual(0.1);
  });

  it("[MOD-5] gives no percentage outside the table", () => {
    expect(crankingPower(1.219).ok).toBe(false);
    expect(crankingPower(1.281).ok).toBe(false);
  });
});

describe("open-circuit volts", () => {
  // Cell volts = specific gravity + 0.84 (common engineering rule, from memory), twelve cells.
  it.each([
    [1.28, 25.44],
    [1.265, 25.26],
    [1.225, 24.78],
    [1.19, 24.36],
    [1.15, 23.88],
    [1.11, 23.4],
  ])("[MOD-6] twelve cells at %f rest at %f V", (gravity, volts) => {
    const battery = { ...leadAcid, full: 1.29, empty: 1.1 } as Battery;
    const charge = (gravity - 1.1) / 0.19;
    expect(must(openCircuitVolts(battery, charge, 25))).toBeCloseTo(volts, 9);
    expect(must(chargeFromVolts(battery, volts, 25))).toBeCloseTo(charge, 9);
  });

  it("[MOD-6] charge to volts and back is the same charge at any temperature", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: -40, max: 60 }),
        (charge, degC) => {
          const volts = must(openCircuitVolts(leadAcid, charge, degC));
          expect(must(chargeFromVolts(leadAcid, volts, degC))).toBeCloseTo(charge, 9);
        },
      ),
      { seed: 241 },
    );
  });

  it("[MOD-6] rise with the charge, and a mean below empty counts as empty", () => {
    const volts = [0, 0.25, 0.5, 0.75, 1].map((c) => must(openCircuitVolts(leadAcid, c, 25)));
    expect(volts).toEqual([...volts].sort((a, b) => a - b));
    expect(must(chargeFromVolts(leadAcid, 23.5, 25))).toBe(0);
    expect(must(chargeFromVolts(leadAcid, 25.5, 25))).toBe(1);
  });

  it("[MOD-7] give no charge for nickel-cadmium batteries (FAA-H-8083-31A ch. 9, from memory)", () => {
    expect(chargeFromVolts(nickelCadmium, 25.4, 25).ok).toBe(false);
    expect(must(openCircuitVolts(nickelCadmium, 0.2, 25))).toBe(
      must(openCircuitVolts(nickelCadmium, 0.9, 25)),
    );
  });

  it("[MOD-7] are refused for reversed leads, dead cells and a charger still on, each with its reason", () => {
    const why = (volts: number) => {
      const got = chargeFromVolts(leadAcid, volts, 25);
      return got.ok ? "" : got.why;
    };
    expect(why(-25)).toContain("reversed");
    expect(why(12.6)).toContain("not a rested battery");
    expect(why(28.2)).toContain("not a rested battery");
    expect(why(Number.NaN)).toContain("outside");
    expect(why(25)).toBe("");
  });

  // RG-series battery owner's manual 5-0324, glossary.
  it("[MOD-8] 32 of 40 Ah is 80 percent charge; 38 of 42 Ah is 90 percent health", () => {
    expect(must(capacityRatio(32, 40))).toBe(0.8);
    expect(must(capacityRatio(38, 42))).toBeCloseTo(0.90476, 5);
    expect(capacityRatio(32, 0).ok).toBe(false);
    expect(capacityRatio(-1, 40).ok).toBe(false);
  });

  // IEC 1.67 V a cell, printed as 20.0 V; military 1.5 V a cell, 18.0 V (battery owner's manual 5-0324).
  it("[MOD-8] twelve lead-acid cells are empty at 20.0 V by IEC, at 18.0 V by the military rule", () => {
    expect(must(emptyVolts(12, 1.67))).toBeCloseTo(20, 1);
    expect(must(emptyVolts(12, 1.5))).toBe(18);
    expect(emptyVolts(12, 2.1).ok).toBe(false);
  });
});
