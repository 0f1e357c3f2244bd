import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  aviationGrade,
  SAE_J300,
  SAE_J1966,
  SAE_WINTER,
  saeGrade,
  winterTest,
} from "../../shared/models/oil/grades.ts";
import { type PreheatRule, preheat } from "../../shared/models/oil/preheat.ts";
import { viscosityFromSaybolt } from "../../shared/models/oil/saybolt.ts";
import { temperatureOf, viscosityAt, viscosityLine } from "../../shared/models/oil/viscosity.ts";
import { printedIndex, viscosityIndex } from "../../shared/models/oil/viscosityIndex.ts";
import { INDEX_TABLE } from "../../shared/models/oil/viscosityIndexTable.ts";
import { must } from "./must.ts";

const lineOf = (v40: number, v100: number, zeroCelsius?: number) =>
  must(viscosityLine({ degC: 40, mm2s: v40 }, { degC: 100, mm2s: v100 }, zeroCelsius));

describe("viscosity by temperature (ASTM D341)", () => {
  it("[MOD-22] a published worked example at 273 K: (40, 32), (100, 5.4) gives A 9.5259, B 3.7449, 8.5 at 80 degC", () => {
    const line = lineOf(32, 5.4, 273);
    expect(line.a).toBeCloseTo(9.5259, 4);
    expect(line.b).toBeCloseTo(3.7449, 4);
    expect(must(viscosityAt(line, 80)).mm2s).toBeCloseTo(8.5331, 4);
  });

  it("[MOD-22] the same at 273.15 K: the constants move, the viscosity does not", () => {
    const line = lineOf(32, 5.4);
    expect(line.a).toBeCloseTo(9.53082, 5);
    expect(line.b).toBeCloseTo(3.74658, 5);
    expect(must(viscosityAt(line, 80)).mm2s).toBeCloseTo(8.5332, 4);
  });

  // Typical data-sheet values at 40 and 100 °C from memory; the curve computed independently by the same law.
  it.each([
    ["80", 122, 13, 8.9827, 3.471, [8582, 2273, 422.6, 47.71, 19.75, 15.54]],
    ["100", 214, 18.5, 8.8704, 3.4069, [21885, 5181, 830.6, 76.64, 29.21, 22.47]],
    ["W100 type", 206, 19.6, 8.5004, 3.2598, [15683, 4119, 742.5, 77.32, 30.53, 23.68]],
    ["120", 300, 23.2, 8.7454, 3.3462, [36450, 8221, 1231, 102.7, 37.43, 28.44]],
    ["15W-50", 160, 20, 7.6987, 2.9471, [5966, 1995, 477.6, 68.18, 29.86, 23.74]],
  ])("[MOD-22] grade %s at −12.2, 0, 20, 60, 85 and 93.3 degC", (_name, v40, v100, a, b, curve) => {
    const line = lineOf(v40, v100);
    expect(line.a).toBeCloseTo(a, 4);
    expect(line.b).toBeCloseTo(b, 4);
    for (const [i, degC] of [-12.2, 0, 20, 60, 85, 93.3].entries()) {
      const want = curve[i] ?? Number.NaN;
      expect(Math.abs(must(viscosityAt(line, degC)).mm2s / want - 1)).toBeLessThan(6e-4);
    }
  });

  it("[MOD-22] passes through its own points, below 2 mm²/s within the half percent of the inverse polynomial", () => {
    const thin = lineOf(1.9, 0.8);
    expect(Math.abs(must(viscosityAt(thin, 40)).mm2s / 1.9 - 1)).toBeLessThan(5e-3);
    expect(Math.abs(must(viscosityAt(thin, 100)).mm2s / 0.8 - 1)).toBeLessThan(5e-3);
    expect(must(temperatureOf(thin, 0.8))).toBeCloseTo(100, 6);
  });

  it("[MOD-22] temperature to viscosity and back is the same temperature, and hotter is always thinner", () => {
    const v40 = fc.double({ min: 60, max: 400, noNaN: true });
    const temperature = fc.double({ min: -20, max: 150, noNaN: true });
    fc.assert(
      fc.property(v40, temperature, temperature, (v, s, t) => {
        const line = lineOf(v, v / 10);
        const at = (degC: number) => must(viscosityAt(line, degC)).mm2s;
        const v100 = at(s);
        if (v100 > 2) expect(must(temperatureOf(line, v100))).toBeCloseTo(s, 6);
        if (Math.abs(s - t) > 1e-6) expect(at(Math.min(s, t))).toBeGreaterThan(at(Math.max(s, t)));
        expect(at(40)).toBeCloseTo(v, 6);
      }),
      { seed: 341 },
    );
  });

  it("[MOD-22] the order of the two points does not matter", () => {
    const [cold, hot] = [
      { degC: 40, mm2s: 214 },
      { degC: 100, mm2s: 18.5 },
    ];
    expect(must(viscosityLine(cold, hot))).toEqual(must(viscosityLine(hot, cold)));
  });

  it("[MOD-23] below 0 degC the reading says it is extrapolated", () => {
    expect(must(viscosityAt(lineOf(214, 18.5), 0)).extrapolated).toBe(false);
    expect(must(viscosityAt(lineOf(214, 18.5), -0.1)).extrapolated).toBe(true);
  });

  it("[MOD-36] an oil thicker when hotter, one point twice and impossible temperatures are refused", () => {
    const line = (p: [number, number], q: [number, number]) =>
      viscosityLine({ degC: p[0], mm2s: p[1] }, { degC: q[0], mm2s: q[1] });
    expect(line([40, 18], [100, 214]).ok).toBe(false);
    expect(line([40, 214], [40, 18.5]).ok).toBe(false);
    expect(line([40, 0], [100, 18.5]).ok).toBe(false);
    expect(viscosityAt(lineOf(214, 18.5), 201).ok).toBe(false);
    expect(viscosityAt(lineOf(214, 18.5), Number.NaN).ok).toBe(false);
    expect(temperatureOf(lineOf(214, 18.5), 1).ok).toBe(false);
  });
});

describe("grades", () => {
  // SAE J300 limits at 100 °C.
  it.each([
    [6.89, null],
    [6.9, "20"],
    [9.3, "30"],
    [12.4999, "30"],
    [12.5, "40"],
    [16.2999, "40"],
    [16.3, "50"],
    [21.8999, "50"],
    [21.9, "60"],
    [26.0999, "60"],
    [26.1, null],
  ])("[MOD-24] %f mm²/s at 100 degC is SAE %s", (mm2s, name) => {
    expect(must(saeGrade(mm2s))).toBe(name);
  });

  it("[MOD-24] in the 1999 edition grade 20 began at 5.6: the table is data", () => {
    const of1999 = SAE_J300.map((g) => (g.name === "20" ? { ...g, from: 5.6 } : g));
    expect(must(saeGrade(5.6, of1999))).toBe("20");
    expect(must(saeGrade(5.6))).toBeNull();
    expect(saeGrade(0).ok).toBe(false);
  });

  it("[MOD-24] grades leave no gap and do not overlap", () => {
    for (const [i, g] of SAE_J300.entries()) {
      expect(g.from).toBeLessThan(g.below);
      if (i > 0) expect(g.from).toBe(SAE_J300[i - 1]?.below);
    }
  });

  // SAE J300 winter grades: crank cP at °C; pump 60 000 cP at 5 °C lower.
  it.each([
    ["0W", 6200, -35, -40],
    ["5W", 6600, -30, -35],
    ["10W", 7000, -25, -30],
    ["15W", 7000, -20, -25],
    ["20W", 9500, -15, -20],
    ["25W", 13000, -10, -15],
  ])("[MOD-24] %s cranks at %i cP at %i degC and pumps at %i", (name, most, crank, pump) => {
    expect(must(winterTest(name))).toEqual({
      crank: { degC: crank, most },
      pump: { degC: pump, most: 60_000 },
    });
    expect(SAE_WINTER.map((g) => g.name)).toContain(name);
  });

  // SAE J1966 (Aug 2011) Table 1.
  it.each([
    ["30", "1065", "65"],
    ["40", "1080", "80"],
    ["50", "1100", "100"],
    ["60", "1120", "120"],
  ])("[MOD-24] SAE %s is %s and commercial %s", (sae, military, commercial) => {
    const grade = { sae, military, commercial };
    for (const name of [`SAE ${sae}`, sae, military, commercial])
      expect(must(aviationGrade(name))).toEqual(grade);
  });

  it("[MOD-24] no two grades have one name", () => {
    const names = SAE_J1966.flatMap((g) => [g.sae, g.military, g.commercial]);
    expect(new Set(names).size).toBe(names.length);
    expect(aviationGrade("70").ok).toBe(false);
    expect(winterTest("30W").ok).toBe(false);
  });

  // Hydraulic Institute's pairs of Saybolt Universal seconds and mm²/s.
  it.each([
    [100, 20.6],
    [200, 43.2],
    [500, 110],
    [1000, 220],
    [2000, 440],
  ])("[MOD-21] %i Saybolt seconds are %f mm²/s, to half a percent", (seconds, mm2s) => {
    expect(Math.abs(must(viscosityFromSaybolt(seconds)) / mm2s - 1)).toBeLessThan(0.005);
  });

  it("[MOD-21] more seconds are a thicker oil, also across the change of formula; 31 s is refused", () => {
    const all = Array.from({ length: 200 }, (_, i) => must(viscosityFromSaybolt(32 + i)));
    expect(all).toEqual([...all].sort((a, b) => a - b));
    expect(viscosityFromSaybolt(31).ok).toBe(false);
  });

  // Commercial numbers are near the seconds at 210 °F (98.9 °C): from memory.
  it.each(["65", "80", "100", "120"])(
    "[MOD-21, MOD-24] commercial %s by its seconds lies in its SAE grade",
    (name) => {
      const grade = must(aviationGrade(name));
      expect(must(saeGrade(must(viscosityFromSaybolt(Number(name)))))).toBe(grade.sae);
    },
  );
});

describe("viscosity index (ISO 2909)", () => {
  // Examples of the standard, held by public test suites; the last takes the formula above 70 mm²/s.
  it.each([
    [73.3, 8.86, 92.42965, 92],
    [22.83, 5.05, 156.42348, 156],
    [53.47, 7.8, 111.30702, 111],
    [73.5, 8.86, 92.03329, 92],
    [1000, 100, 192.99754, 193],
  ])("[MOD-25] %f at 40 and %f at 100 degC: %f, printed %i", (u, y, index, printed) => {
    expect(must(viscosityIndex(u, y))).toBeCloseTo(index, 5);
    expect(printedIndex(must(viscosityIndex(u, y)))).toBe(printed);
  });

  // Typical data-sheet values from memory; the index computed independently.
  it.each([
    [122, 13, 99.5],
    [214, 18.5, 95.7],
    [206, 19.6, 108.7],
    [300, 23.2, 96.3],
    [160, 20, 144.7],
  ])("[MOD-25] an aviation oil of %f and %f has index %f", (u, y, index) => {
    expect(Math.abs(must(viscosityIndex(u, y)) - index)).toBeLessThan(0.06);
  });

  it.each([
    [116.4, 116],
    [116.6, 117],
    [116.5, 116],
    [115.5, 116],
  ])("[MOD-25] %f is printed %i: halves to the even number", (index, printed) => {
    expect(printedIndex(index)).toBe(printed);
  });

  it("[MOD-25] an oil like the reference oils has index 0 and 100, at every row of the table", () => {
    for (const [y, l, h] of INDEX_TABLE) {
      expect(must(viscosityIndex(l, y))).toBeCloseTo(0, 9);
      expect(must(viscosityIndex(h, y))).toBeCloseTo(100, 9);
    }
  });

  // ISO 2909 / ASTM D2270 appendix: quadratics that may replace the table; three of the sixteen ranges.
  it("[MOD-25] the table agrees with the standard's quadratics within half a percent", () => {
    const near = (got: number, want: number) => expect(Math.abs(got / want - 1)).toBeLessThan(0.005);
    for (const [y, l, h] of INDEX_TABLE) {
      if (y <= 3.8) {
        near(l, 1.14673 * y ** 2 + 1.7576 * y - 0.109);
        near(h, 0.84155 * y ** 2 + 1.5521 * y - 0.077);
      } else if (y <= 4.4) {
        near(l, 3.38095 * y ** 2 - 15.4952 * y + 33.196);
        near(h, 0.78571 * y ** 2 + 1.7929 * y - 0.183);
      }
    }
  });

  it("[MOD-25] above 70 mm²/s the formula agrees with the quadratic within a tenth of a percent", () => {
    for (const y of [71, 100, 300]) {
      const l = 0.83531 * y ** 2 + 14.6731 * y - 216.246;
      const h = 0.16841 * y ** 2 + 11.8493 * y - 96.947;
      expect(Math.abs(must(viscosityIndex((l + h) / 2, y)) - 50)).toBeLessThan(0.1);
    }
  });

  it("[MOD-25] an oil thinner at 40 degC and equal at 100 has a higher index; the two formulas meet at 100", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2.5, max: 26, noNaN: true }),
        fc.double({ min: 1.3, max: 6, noNaN: true }),
        (y, r) => {
          const index = (u: number) => must(viscosityIndex(u, y));
          expect(index(y * r * 1.02)).toBeLessThan(index(y * r));
        },
      ),
      { seed: 2909 },
    );
    expect(must(viscosityIndex(59.6 * 0.999999, 8))).toBeCloseTo(100, 3);
    expect(must(viscosityIndex(59.6 * 1.000001, 8))).toBeCloseTo(100, 3);
  });

  it("[MOD-25, MOD-36] it is not defined below 2 mm²/s, and is refused beyond the table", () => {
    expect(viscosityIndex(3, 1.5).ok).toBe(false);
    expect(viscosityIndex(300, 26.1).ok).toBe(false);
    expect(viscosityIndex(600, 70).ok).toBe(false);
    expect(viscosityIndex(600, 70.1).ok).toBe(true);
    expect(viscosityIndex(8, 8).ok).toBe(false);
  });

  it("[MOD-25] the table's rows rise smoothly in all three columns, with L above H", () => {
    for (const [i, [y, l, h]] of INDEX_TABLE.entries()) {
      expect(l).toBeGreaterThan(h);
      const [before, after] = [INDEX_TABLE[i - 1], INDEX_TABLE[i + 1]];
      if (!before || !after) continue;
      expect(y > before[0] && l > before[1] && h > before[2]).toBe(true);
      // If rows are evenly spaced, none lies more than half a percent off the line of its neighbours.
      if (Math.abs(after[0] - y - (y - before[0])) > 1e-9) continue;
      expect(Math.abs(l / ((before[1] + after[1]) / 2) - 1)).toBeLessThan(0.005);
      expect(Math.abs(h / ((before[2] + after[2]) / 2) - 1)).toBeLessThan(0.005);
    }
  });
});

describe("preheat", () => {
  const f = (value: number) => ({ value, unit: "degF" as const });
  const c = (value: number) => ({ value, unit: "degC" as const });
  /** Lycoming Service Instruction 1505 (2002): required below +10 °F. */
  const below10: PreheatRule = { below: f(10) };
  /** Another maker's manual of 2011: below 20 °F for two hours or more. */
  const soaked: PreheatRule = { below: f(20), soak: { value: 2, unit: "h" } };

  it("[MOD-26] below 10 degF it is required, at 10 degF it is not", () => {
    expect(must(preheat(below10, f(9.9), null))).toBe("required");
    expect(must(preheat(below10, f(10), null))).toBe("notRequired");
    expect(must(preheat(below10, c(-12), null))).toBe("notRequired");
    expect(must(preheat(below10, c(-12.3), null))).toBe("required");
  });

  it("[MOD-26] 20 degF is printed as both −6 and −7 degC; the source's unit decides", () => {
    expect(must(preheat(soaked, c(-6.5), null))).toBe("notRequired");
    expect(must(preheat(soaked, c(-7), null))).toBe("required");
  });

  it("[MOD-26] a soak shorter than the source's is not enough; an unknown one is", () => {
    expect(must(preheat(soaked, f(0), { value: 119, unit: "min" }))).toBe("notRequired");
    expect(must(preheat(soaked, f(0), { value: 120, unit: "min" }))).toBe("required");
    expect(must(preheat(soaked, f(0), null))).toBe("required");
    expect(must(preheat(soaked, f(20), null))).toBe("notRequired");
  });

  it("[MOD-36] a temperature in no unit of temperature is refused", () => {
    expect(preheat(below10, { value: 10, unit: "psi" }, null).ok).toBe(false);
    expect(preheat(soaked, f(0), { value: 10, unit: "psi" }).ok).toBe(false);
    expect(preheat(below10, f(-500), null).ok).toBe(false);
  });
});
