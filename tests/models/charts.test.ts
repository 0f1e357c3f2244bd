import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cusumChart } from "../../shared/models/statistics/cusum.ts";
import { ewmaChart } from "../../shared/models/statistics/ewma.ts";
import { individualsChart } from "../../shared/models/statistics/individuals.ts";
import nist from "./data/nistHandbook.json" with { type: "json" };
import { must } from "./must.ts";

const closeTo = (digits: number) => (x: number) => expect.closeTo(x, digits);
const readings = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 40 });

describe("individuals chart", () => {
  it("[MOD-87] NIST/SEMATECH e-Handbook 6.3.2.2: flow rates, in control", () => {
    const chart = must(individualsChart(nist.imr.x));
    expect(chart.mean).toBeCloseTo(nist.imr.xbar, 10);
    expect(chart.movingRanges).toEqual(nist.imr.mr.map(closeTo(10)));
    expect(chart.meanRange).toBeCloseTo(nist.imr.mrbar, 4);
    expect(chart.upper).toBeCloseTo(nist.imr.ucl, 4);
    expect(chart.lower).toBeCloseTo(nist.imr.lcl, 4);
    // 3.267 times the printed mean range.
    expect(chart.rangeUpper).toBeCloseTo(6.1347, 4);
    expect(chart.outside).toEqual([]);
    expect(chart.jumps).toEqual([]);
  });

  it("[MOD-87] finds a value out of line and the jump to it", () => {
    const chart = must(individualsChart([10, 10.1, 9.9, 10, 10.1, 9.9, 10, 14, 10, 10.1, 9.9, 10]));
    expect(chart.outside).toEqual([7]);
    expect(chart.jumps).toEqual([7, 8]);
    expect(individualsChart([1]).ok).toBe(false);
  });

  it("[MOD-87] limits move with the values and scale with them", () => {
    fc.assert(
      fc.property(readings, fc.integer({ min: -50, max: 50 }), (xs, shift) => {
        const a = must(individualsChart(xs));
        const b = must(individualsChart(xs.map((x) => 2 * x + shift)));
        expect(b.upper).toBeCloseTo(2 * a.upper + shift, 6);
        expect(b.lower).toBeCloseTo(2 * a.lower + shift, 6);
      }),
      { seed: 87 },
    );
  });
});

describe("EWMA chart", () => {
  const plan = { target: nist.ewma.z0, sd: nist.ewma.s, lambda: nist.ewma.lambda, width: 3 };

  it("[MOD-88] NIST/SEMATECH e-Handbook 6.3.2.4: averages and limits, in control", () => {
    const chart = must(ewmaChart(nist.ewma.x, plan));
    expect(chart.averages).toEqual(nist.ewma.z.map((z) => expect.closeTo(z, 2)));
    expect(chart.upper).toBeCloseTo(nist.ewma.ucl, 4);
    // Printed 47.4115 is truncated: the arithmetic gives 47.41157.
    expect(Math.abs(chart.lower - nist.ewma.lcl)).toBeLessThan(1e-4);
    expect(chart.lower).toBeCloseTo(47.41157, 5);
    expect(chart.firstOutside).toBeNull();
  });

  it("[MOD-88] exact limits widen to the printed ones (arithmetic on the handbook's figures)", () => {
    const chart = must(ewmaChart(nist.ewma.x, plan));
    expect(chart.uppers.slice(0, 5)).toEqual([51.8485, 52.2564, 52.4314, 52.5127, 52.5516].map(closeTo(4)));
    expect(chart.lowers.map((l, i) => l + (chart.uppers[i] ?? 0))).toEqual(
      nist.ewma.x.map(() => expect.closeTo(100, 9)),
    );
    expect(chart.uppers.at(-1)).toBeLessThan(chart.upper);
  });

  it("[MOD-88] Montgomery's set, weight 0.1, width 2.7: out of control at value 29", () => {
    const x = [
      9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.2, 10.34, 9.03, 11.47, 10.51, 9.4, 10.08, 9.37,
      10.62, 10.31, 8.52, 10.84, 10.9, 9.33, 12.29, 11.5, 10.6, 11.08, 10.38, 11.62, 11.31, 10.52,
    ];
    const chart = must(ewmaChart(x, { target: 10, sd: 1, lambda: 0.1, width: 2.7 }));
    // From memory, the book says 28. The arithmetic gives 10.573 there, inside 10.619, and 10.647 at 29.
    expect(chart.firstOutside).toBe(28);
    expect(chart.averages[27]).toBeCloseTo(10.57314, 5);
    expect(chart.uppers[27]).toBeCloseTo(10.61857, 5);
  });

  it("[MOD-88] weight 1 is the values themselves; a bad plan is refused", () => {
    fc.assert(
      fc.property(readings, (xs) => {
        expect(must(ewmaChart(xs, { target: 0, sd: 1, lambda: 1, width: 3 })).averages).toEqual(
          xs.map((x) => x + 0),
        );
      }),
      { seed: 88 },
    );
    expect(ewmaChart([1], { ...plan, lambda: 0 }).ok).toBe(false);
    expect(ewmaChart([1], { ...plan, sd: 0 }).ok).toBe(false);
  });
});

describe("CUSUM chart", () => {
  it("[MOD-89] NIST/SEMATECH e-Handbook 6.3.2.3: first signal at group 14, high", () => {
    const { target, k, h, x, sHi, sLo, firstSignal } = nist.cusum;
    const chart = must(cusumChart(x, { target, slack: k, decision: h }));
    expect(chart.high).toEqual(sHi.map(closeTo(9)));
    expect(chart.low).toEqual(sLo.map(closeTo(9)));
    expect(chart.signal).toEqual({ index: firstSignal - 1, side: "high" });
    expect(x.reduce((sum, v) => sum + v - target, 0)).toBeCloseTo(19.075, 9);
  });

  it("[MOD-89] without slack high less low is the plain cumulative sum (Montgomery, ASPE table 16-7, target 99)", () => {
    const x = [
      102, 94.8, 98.3, 98.4, 102, 98.5, 99, 97.7, 100, 98.1, 101.3, 98.7, 101.1, 98.4, 97, 96.7, 100.3, 101.4,
      97.2, 101,
    ];
    // Signs by the arithmetic: the copy that was read had lost them.
    const printed = [
      3, -1.2, -1.9, -2.5, 0.5, 0, 0, -1.3, -0.3, -1.2, 1.1, 0.8, 2.9, 2.3, 0.3, -2, -0.7, 1.7, -0.1, 1.9,
    ];
    let sum = 0;
    x.forEach((v, i) => {
      sum += v - 99;
      expect(sum).toBeCloseTo(printed[i] ?? Number.NaN, 9);
    });
    const rising = [99, 100, 102, 103];
    expect(must(cusumChart(rising, { target: 99, slack: 0, decision: 100 })).high).toEqual([0, 1, 4, 8]);
    // Plain sums less their lowest point so far equal the chart's high side.
    let plain = 0;
    let lowest = 0;
    const expected = x.map((v) => {
      plain += v - 99;
      lowest = Math.min(lowest, plain);
      return expect.closeTo(plain - lowest, 9);
    });
    expect(must(cusumChart(x, { target: 99, slack: 0, decision: 100 })).high).toEqual(expected);
  });

  it("[MOD-89] mirrored values mirror the chart", () => {
    fc.assert(
      fc.property(readings, (xs) => {
        const plan = { target: 0, slack: 0.5, decision: 4 };
        const a = must(cusumChart(xs, plan));
        const b = must(
          cusumChart(
            xs.map((x) => -x),
            plan,
          ),
        );
        expect(b.low.map((v) => v + 0)).toEqual(a.high.map((v) => v + 0));
        expect(b.signal?.index).toBe(a.signal?.index);
      }),
      { seed: 89 },
    );
  });
});
