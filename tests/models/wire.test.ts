import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  chooseWire,
  conductorTemperature,
  deratedLength,
  heatedResistance,
  wireDrop,
} from "../../shared/models/electrical/wire.ts";
import { ALLOWABLE_DROP, WIRE_RATINGS, WIRE_TABLE } from "../../shared/models/electrical/wireTable.ts";
import { must } from "./must.ts";

/** Returns the AWG number of a size's name: 1/0 is 0, 2/0 is −1. */
const awg = (size: string) => (size.endsWith("/0") ? 1 - Number(size[0]) : Number(size));
/** Returns the diameter, inches: ASTM B258. */
const inches = (size: string) => 0.005 * 92 ** ((36 - awg(size)) / 39);
/** Returns the ohms per 1000 ft of solid copper at 20 °C: IACS 1.7241e-8 Ω·m. */
const solidOhm = (size: string) => (1.7241e-8 * 304.8) / ((Math.PI / 4) * (inches(size) * 0.0254) ** 2);

describe("wire drop", () => {
  // AC 43.13-1B Tables 11-7 and 11-8: volts as printed, unless the note says otherwise.
  it.each([
    ["6", 107, 20, 0.942, 0.0005],
    ["4", 90, 20, 0.504, 0.0005],
    ["14", 100, 20, 6.12, 0.0005],
    ["10", 39, 20, 0.98, 0.005],
    ["10", 156, 20, 3.93, 0.005],
    ["10", 273, 20, 6.88, 0.005],
    // Printed 3.60; 0.00202 · 88 · 20 is 3.555.
    ["12", 88, 20, 3.5552, 1e-9],
    // Printed .366, an error of the circular: half of 39 ft must lose half of .983.
    ["10", 19.5, 20, 0.4914, 1e-9],
  ])("[MOD-13] No. %s, %f ft, %i A: %f V", (size, feet, amps, volts, within) => {
    expect(Math.abs(must(wireDrop(size, { feet, amps })) - volts)).toBeLessThanOrEqual(within);
  });

  it("[MOD-13] a 60 ft loop of 4/0 cart cable loses .72 to 3.6 V; two in parallel half of it", () => {
    const drops = [200, 400, 600, 800, 1000].map((amps) => must(wireDrop("4/0", { feet: 60, amps })));
    for (const [i, volts] of [0.72, 1.44, 2.16, 2.88, 3.6].entries()) expect(drops[i]).toBeCloseTo(volts, 9);
    expect(must(wireDrop("2/0", { feet: 60, amps: 400 }))).toBeCloseTo(2.16, 9);
    expect(must(wireDrop("4/0", { feet: 60, amps: 1000 }, 2))).toBeCloseTo(1.8, 9);
  });

  it("[MOD-13, MOD-36] an unknown size, a negative run and an absurd current are refused", () => {
    expect(wireDrop("3", { feet: 10, amps: 10 }).ok).toBe(false);
    expect(wireDrop("4", { feet: -1, amps: 10 }).ok).toBe(false);
    expect(wireDrop("4", { feet: 10, amps: 4000 }).ok).toBe(false);
    expect(wireDrop("4", { feet: 10, amps: 10 }, 0).ok).toBe(false);
  });
});

describe("wire table", () => {
  // AC 43.13-1B Table 11-9: A at 105, 150, 200 °C; Ω per 1000 ft.
  it.each([
    ["24", 2.5, 4, 5, 28.4],
    ["22", 3, 5, 6, 16.2],
    ["20", 4, 7, 9, 9.88],
    ["18", 6, 9, 12, 6.23],
    ["16", 7, 11, 14, 4.81],
    ["14", 10, 14, 18, 3.06],
    ["12", 13, 19, 25, 2.02],
    ["10", 17, 26, 32, 1.26],
    ["8", 38, 57, 71, 0.7],
    ["6", 50, 76, 97, 0.44],
    ["4", 68, 103, 133, 0.28],
    ["2", 95, 141, 179, 0.18],
    ["1", 113, 166, 210, 0.15],
    ["1/0", 128, 192, 243, 0.12],
    ["2/0", 147, 222, 285, 0.09],
    ["3/0", 172, 262, 335, 0.07],
    ["4/0", 204, 310, 395, 0.06],
  ])("[MOD-13] No. %s carries %f, %f, %f A and has %f ohm", (size, a105, a150, a200, ohm) => {
    const row = WIRE_TABLE.find((r) => r.size === size);
    expect(row?.amps).toEqual({ 105: a105, 150: a150, 200: a200 });
    expect(row?.ohmPer1000Ft).toBe(ohm);
  });

  // A check of the independent formula itself: NBS wire tables print .2043 in, .2485 to .2487 Ω for No. 4.
  it("[MOD-13] ASTM B258 gives the standard diameters and ohms", () => {
    expect(inches("4")).toBeCloseTo(0.20431, 5);
    expect(solidOhm("4")).toBeCloseTo(0.2485, 4);
    expect(inches("4/0")).toBeCloseTo(0.46, 9);
    expect(solidOhm("24")).toBeCloseTo(25.67, 2);
  });

  it("[MOD-13] ohms and circular mils of each row fit tinned copper: from IACS copper's 10.37 Ω·cmil/ft to a third more", () => {
    for (const row of WIRE_TABLE) {
      const perMil = (row.ohmPer1000Ft * row.circularMils) / 1000;
      expect(perMil).toBeGreaterThan(10.37);
      expect(perMil).toBeLessThan((10.37 * 4) / 3);
    }
  });

  // Aircraft No. 18 and 20 strands hold more copper than the solid size of that name, so they have fewer ohms.
  it("[MOD-13] only No. 20 and 18 are below a solid wire of their name (ASTM B258), by their thicker strands", () => {
    const below = WIRE_TABLE.filter((r) => r.ohmPer1000Ft < solidOhm(r.size));
    expect(below.map((r) => r.size)).toEqual(["20", "18"]);
    for (const r of below) expect(r.circularMils).toBeGreaterThan((inches(r.size) * 1000) ** 2 * 1.15);
  });

  it("[MOD-13] a thicker wire carries more with fewer ohms; a better rating carries more", () => {
    for (const [i, row] of WIRE_TABLE.entries()) {
      const thinner = WIRE_TABLE[i - 1];
      expect(row.amps[105] < row.amps[150] && row.amps[150] < row.amps[200]).toBe(true);
      if (!thinner) continue;
      expect(row.ohmPer1000Ft).toBeLessThan(thinner.ohmPer1000Ft);
      expect(row.circularMils).toBeGreaterThan(thinner.circularMils);
      for (const rating of WIRE_RATINGS) expect(row.amps[rating]).toBeGreaterThan(thinner.amps[rating]);
    }
  });
});

describe("choice of wire", () => {
  it("[MOD-14] AC 43.13-1B para 11-67 example: 50 ft, 28 V, 20 A continuous, choose No. 8", () => {
    const allowed = ALLOWABLE_DROP.find((d) => d.nominal === 28)?.continuous ?? 0;
    expect(must(chooseWire({ feet: 50, amps: 20 }, allowed, 105))).toBe("8");
    expect(must(wireDrop("10", { feet: 50, amps: 20 }))).toBeCloseTo(1.26, 9);
    expect(must(wireDrop("8", { feet: 50, amps: 20 }))).toBeCloseTo(0.7, 9);
  });

  it("[MOD-14] Table 11-6 continuous column, as Table 11-7 uses it; intermittent twice that, from memory", () => {
    expect(ALLOWABLE_DROP.map((d) => d.continuous)).toEqual([0.5, 1, 4, 7]);
    expect(ALLOWABLE_DROP.map((d) => d.intermittent)).toEqual([1, 2, 8, 14]);
  });

  it("[MOD-14] a short run is chosen by current alone", () => {
    expect(must(chooseWire({ feet: 1, amps: 300 }, 1, 150))).toBe("4/0");
    expect(chooseWire({ feet: 1, amps: 300 }, 1, 105).ok).toBe(false);
  });

  it("[MOD-14] the wire chosen meets both limits and the next thinner one does not", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 200 }),
        fc.constantFrom(...WIRE_RATINGS),
        (feet, amps, rating) => {
          const chosen = chooseWire({ feet, amps }, 1, rating);
          const does = (i: number) => {
            const row = WIRE_TABLE[i];
            return !!row && row.amps[rating] >= amps && must(wireDrop(row.size, { feet, amps })) <= 1;
          };
          const at = chosen.ok ? WIRE_TABLE.findIndex((r) => r.size === chosen.value) : WIRE_TABLE.length;
          expect(does(at)).toBe(chosen.ok);
          expect(does(at - 1)).toBe(false);
        },
      ),
      { seed: 4313 },
    );
  });
});

describe("hot conductors", () => {
  // L2 = 254.5·L1/(234.5 + T2), aluminium 258.1 and 238.1 (AC 43.13-1B para 11-67); rows computed from it.
  it.each([
    ["copper", 20, 39],
    ["copper", 40, 36.16],
    ["copper", 50, 34.888],
    ["copper", 60, 33.7],
    ["copper", 75, 32.069],
    ["copper", 85, 31.07],
    ["copper", 105, 29.236],
    ["aluminium", 60, 33.77],
    ["aluminium", 75, 32.149],
  ] as const)("[MOD-15] 39 ft of %s at %i degC may be %f ft", (metal, degC, feet) => {
    expect(Math.abs(must(deratedLength(metal, 39, degC)) - feet)).toBeLessThanOrEqual(0.005);
  });

  it("[MOD-15] agrees with the coefficient of copper, 0.00393 per K at 20 degC, within 1e-4 at 75 degC", () => {
    expect(Math.abs(must(heatedResistance("copper", 75)) - (1 + 0.00393 * 55))).toBeLessThan(1e-4);
    expect(must(heatedResistance("copper", 75))).toBeCloseTo(1.21611, 5);
  });

  it("[MOD-15] 20 of 61.5 A at 50 degC in 200 degC wire: 135.5 degC (root form from memory); the ends are exact", () => {
    expect(must(conductorTemperature(50, 200, 20, 61.5))).toBeCloseTo(135.5, 1);
    expect(must(conductorTemperature(50, 200, 0, 61.5))).toBe(50);
    expect(must(conductorTemperature(50, 200, 61.5, 61.5))).toBe(200);
    expect(conductorTemperature(50, 200, 62, 61.5).ok).toBe(false);
    expect(deratedLength("copper", 39, 19).ok).toBe(false);
  });
});
