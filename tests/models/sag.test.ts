import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Battery } from "../../shared/models/electrical/battery.ts";
import { peukertHours } from "../../shared/models/electrical/peukert.ts";
import {
  busVolts,
  crankingAmps,
  internalOhmAt,
  ohmFromMaximumPower,
} from "../../shared/models/electrical/sag.ts";
import {
  capacityShare,
  type StartBattery,
  type StartsInput,
  startAmpHours,
  startsByCharge,
  startsLeft,
} from "../../shared/models/electrical/startsLeft.ts";
import { must } from "./must.ts";

describe("volts under cranking", () => {
  // Ohm's law, 25.2 V behind 10 mΩ.
  it.each([
    [200, 23.2],
    [400, 21.2],
    [600, 19.2],
    [1000, 15.2],
  ])("[MOD-9] %i A leave %f V", (amps, volts) => {
    expect(must(busVolts({ openCircuit: 25.2, internalOhm: 0.004, cableOhm: 0.006 }, amps))).toBeCloseTo(
      volts,
      9,
    );
  });

  it("[MOD-9] a stalled motor draws the current that the whole circuit allows, and less as it turns", () => {
    const source = { openCircuit: 25.2, internalOhm: 0.004, cableOhm: 0.006 };
    expect(must(crankingAmps(source, 0.02, 0))).toBeCloseTo(840, 9);
    expect(must(crankingAmps(source, 0.02, 12.6))).toBeCloseTo(420, 9);
    expect(must(crankingAmps(source, 0.02, 25.2))).toBe(0);
  });

  it("[MOD-9] bus volts equal the motor's own I·Ra + ke·ω", () => {
    const ohm = fc.double({ min: 0.003, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(
        ohm,
        ohm,
        ohm,
        fc.double({ min: 0, max: 20, noNaN: true }),
        (internalOhm, cableOhm, ra, back) => {
          const source = { openCircuit: 25, internalOhm, cableOhm };
          const amps = must(crankingAmps(source, ra, back));
          expect(must(busVolts(source, amps))).toBeCloseTo(amps * ra + back, 9);
        },
      ),
      { seed: 28 },
    );
  });

  it("[MOD-9, MOD-36] a load the source cannot give, a circuit of no resistance and a driven motor are refused", () => {
    const source = { openCircuit: 25.2, internalOhm: 0.004, cableOhm: 0.006 };
    expect(must(busVolts(source, 2520))).toBeCloseTo(0, 9);
    expect(busVolts(source, 2521).ok).toBe(false);
    expect(busVolts(source, -1).ok).toBe(false);
    expect(crankingAmps({ openCircuit: 25, internalOhm: 0, cableOhm: 0 }, 0, 0).ok).toBe(false);
    expect(crankingAmps(source, 0.02, 26).ok).toBe(false);
  });

  it("[MOD-10] internal resistance from the maximum-power current (IEC 60952-1, from memory): half the volts drop", () => {
    const internalOhm = must(ohmFromMaximumPower(25.2, 1260));
    expect(internalOhm).toBeCloseTo(0.01, 12);
    expect(must(busVolts({ openCircuit: 25.2, internalOhm, cableOhm: 0 }, 1260))).toBeCloseTo(12.6, 9);
  });

  it("[MOD-10] internal resistance is interpolated between the battery's rows and never beyond them", () => {
    // Doubling from 25 to −18 °C: common practice, from memory.
    const table = [
      [-18, 0.008],
      [0, 0.006],
      [25, 0.004],
    ] as const;
    expect(must(internalOhmAt(table, -18))).toBe(0.008);
    expect(must(internalOhmAt(table, -9))).toBeCloseTo(0.007, 12);
    expect(must(internalOhmAt(table, 25))).toBe(0.004);
    expect(internalOhmAt(table, -19).ok).toBe(false);
    expect(internalOhmAt(table, 26).ok).toBe(false);
    expect(internalOhmAt([], 20).ok).toBe(false);
    expect(
      internalOhmAt(
        [
          [20, 1],
          [10, 1],
          [30, 1],
        ],
        20,
      ).ok,
    ).toBe(false);
  });
});

describe("Peukert's law", () => {
  // 100 Ah over 20 h; 8.7 h at 10 A and k = 1.2 is a commonly printed example (from memory).
  it.each([
    [1.2, 5, 20],
    [1.2, 10, 8.7055],
    [1.2, 20, 3.7893],
    [1.2, 50, 1.2619],
    [1.3, 10, 8.1225],
    [1.3, 20, 3.2988],
  ])("[MOD-11] exponent %f, %i A last %f h", (exponent, amps, hours) => {
    expect(must(peukertHours({ ampHours: 100, hours: 20, exponent }, amps))).toBeCloseTo(hours, 4);
  });

  it("[MOD-11] exponent 1 is capacity over current; a larger current lasts shorter; a larger exponent never longer", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 1.5, noNaN: true }),
        (i, k) => {
          const hours = (exponent: number, amps: number) =>
            must(peukertHours({ ampHours: 100, hours: 20, exponent }, amps));
          expect(hours(1, i)).toBeCloseTo(100 / i, 9);
          expect(hours(k, i * 1.1)).toBeLessThan(hours(k, i));
          expect(hours(k, i)).toBeLessThanOrEqual(hours(1, i) * (1 + 1e-12));
        },
      ),
      { seed: 1897 },
    );
  });

  it("[MOD-11, MOD-36] below the rated current the law is not used", () => {
    expect(peukertHours({ ampHours: 100, hours: 20, exponent: 1.2 }, 4.9).ok).toBe(false);
    expect(peukertHours({ ampHours: 100, hours: 20, exponent: 0.9 }, 10).ok).toBe(false);
  });
});

describe("starts left", () => {
  const rating = { ampHours: 36, hours: 1, exponent: 1.15 };
  const crank = { amps: 300, seconds: 15 };
  const battery: Battery = {
    chemistry: "leadAcid",
    cells: 12,
    full: 1.27,
    empty: 1.15,
    voltsPerKelvin: 0.0002,
  };
  const one: StartBattery = {
    ...{ battery, rating, charge: 0.8, floor: 0.2, degC: 25, internalOhm: 0.006, share: 1 },
  };
  const input: StartsInput = {
    batteries: [one],
    crank,
    breakawayAmps: crank.amps,
    cableOhm: 0.003,
    leastVolts: 18,
  };
  const alone = (more: Partial<StartBattery>): StartsInput => ({
    ...input,
    batteries: [{ ...one, ...more }],
  });

  it("[MOD-12] 300 A for 15 s take 1.25 Ah, counted 1.71804 Ah at exponent 1.15: twelve starts from 0.8 to 0.2", () => {
    expect(must(startAmpHours(crank, { ...rating, exponent: 1 }))).toBeCloseTo(1.25, 12);
    expect(must(startAmpHours(crank, rating))).toBeCloseTo(1.71804, 5);
    expect(must(startsByCharge(crank, rating, { charge: 0.8, floor: 0.2, share: 1 }))).toBe(12);
  });

  it("[MOD-12] a start is Peukert's law for a short draw: time on load × rated capacity / Peukert's time", () => {
    const hours = must(peukertHours(rating, crank.amps));
    expect(must(startAmpHours(crank, rating))).toBeCloseTo(
      ((crank.seconds / 3600) * rating.ampHours) / hours,
      9,
    );
  });

  it("[MOD-12] a whole number of starts stays whole, and a charge below the floor gives none", () => {
    const each = { amps: 72, seconds: 180 };
    expect(
      must(startsByCharge(each, { ...rating, exponent: 1 }, { charge: 0.9, floor: 0.2, share: 1 })),
    ).toBe(7);
    expect(must(startsByCharge(crank, rating, { charge: 0.1, floor: 0.2, share: 1 }))).toBe(0);
  });

  it("[MOD-12] the bus volts limit the number of starts if they fall first", () => {
    expect(must(startsLeft(input))).toBe(12);
    // Open circuit at charge 0.8 is 25.032 V, less 2.7 V under load: 22.332 V; each start takes 0.0687 V.
    expect(must(startsLeft({ ...input, leastVolts: 22.3 }))).toBe(1);
    expect(must(startsLeft({ ...input, leastVolts: 22.0 }))).toBe(5);
    expect(must(startsLeft({ ...input, leastVolts: 22.4 }))).toBe(0);
  });

  it("[MOD-12] more resistance, as in a colder battery, never gives more starts", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 10, max: 24 }),
        (a, b, leastVolts) => {
          const at = (milliohm: number) =>
            must(startsLeft({ ...alone({ internalOhm: milliohm / 1000 }), leastVolts }));
          expect(at(Math.max(a, b))).toBeLessThanOrEqual(at(Math.min(a, b)));
        },
      ),
      { seed: 24 },
    );
  });

  it("[MOD-12] a current that the source cannot give allows no start; a figure out of range is refused", () => {
    expect(must(startsLeft({ ...alone({ internalOhm: 0.2 }), leastVolts: 0 }))).toBe(0);
    expect(startsLeft(alone({ internalOhm: 2 })).ok).toBe(false);
    expect(startsLeft(alone({ charge: 1.1 })).ok).toBe(false);
    expect(startsLeft({ ...input, crank: { amps: 300, seconds: 0 } }).ok).toBe(false);
  });

  it("[MOD-12] the breakaway current decides, not the one that turns the engine", () => {
    // 25.032 - 600 x 0.009 = 19.632 V at the first breakaway.
    expect(must(startsLeft({ ...input, breakawayAmps: 600, leastVolts: 19.7 }))).toBe(0);
    expect(must(startsLeft({ ...input, breakawayAmps: 600, leastVolts: 19.6 }))).toBe(1);
    expect(startsLeft({ ...input, breakawayAmps: 299 }).ok).toBe(false);
  });

  it("[MOD-12] two equal batteries give what one does at half the current", () => {
    const both = must(startsLeft({ ...input, batteries: [one, one], leastVolts: 1 }));
    const half = { ...crank, amps: 150 };
    expect(both).toBe(must(startsByCharge(half, rating, one)));
    // The weaker of two decides.
    const weak = { ...one, charge: 0.3 };
    const weakest = must(startsByCharge(half, rating, weak));
    expect(must(startsLeft({ ...input, batteries: [one, weak], leastVolts: 1 }))).toBe(weakest);
  });

  // IEEE 485 table 1, cell size correction for electrolyte of 25, 50 and 77 degF: 1.520, 1.190, 1.000. From memory.
  const CAPACITY = [
    [-3.9, 1 / 1.52],
    [10, 1 / 1.19],
    [25, 1],
  ] as const;

  it("[MOD-12] a battery's capacity follows its own table, linear between, never more than its rating", () => {
    expect(must(capacityShare(CAPACITY, 10))).toBeCloseTo(0.8403, 4);
    expect(must(capacityShare(CAPACITY, 17.5))).toBeCloseTo((1 + 1 / 1.19) / 2, 9);
    expect(must(capacityShare(CAPACITY, 60))).toBe(1);
    // Colder than the table nothing is known.
    expect(capacityShare(CAPACITY, -4).ok).toBe(false);
    expect(capacityShare(CAPACITY, Number.NaN).ok).toBe(false);
    expect(capacityShare([], 20).ok).toBe(false);
  });

  it("[MOD-12] cold never gives more starts at one state of charge", () => {
    const ohms = [
      [-3.9, 0.016],
      [25, 0.01],
    ] as const;
    fc.assert(
      fc.property(
        fc.double({ min: -3.9, max: 25, noNaN: true }),
        fc.double({ min: -3.9, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 8, max: 22 }),
        (a, b, charge, leastVolts) => {
          const at = (degC: number) => {
            const share = must(capacityShare(CAPACITY, degC));
            const internalOhm = must(internalOhmAt(ohms, degC));
            const cold = alone({ charge, degC, share, internalOhm });
            return must(startsLeft({ ...cold, breakawayAmps: 600, leastVolts }));
          };
          expect(at(Math.min(a, b))).toBeLessThanOrEqual(at(Math.max(a, b)));
        },
      ),
      { seed: 12 },
    );
  });
});
