import fc from "fast-check";
import { TheilSenRegression } from "ml-regression-theil-sen";
import * as simple from "simple-statistics";
import { describe, expect, it } from "vitest";
import { autocorrelation } from "../../shared/models/statistics/autocorrelation.ts";
import { moments } from "../../shared/models/statistics/moments.ts";
import { regressionLine } from "../../shared/models/statistics/regression.ts";
import { theilSenLine } from "../../shared/models/statistics/theilSen.ts";
import nist from "./data/nistHandbook.json" with { type: "json" };
import strd from "./data/strdUnivariate.json" with { type: "json" };
import { must } from "./must.ts";

const norris = nist.norris.x.map((x, i) => ({ x, y: nist.norris.y[i] ?? Number.NaN }));

/** NIST StRD NumAcc3 and 4: one reading, then 500 times the pair a tenth on either side of it. */
const numAcc = (at: number) => [at + 0.2, ...Array.from({ length: 500 }, () => [at + 0.1, at + 0.3]).flat()];

const coordinate = fc.integer({ min: -500, max: 500 });
const distinct = (n: number) => fc.uniqueArray(coordinate, { minLength: n, maxLength: n });

/** Expects a value within a relative distance, as StRD counts digits. */
const near = (got: number | null, certified: number, relative: number) => {
  if (got === null) throw new Error("no value");
  expect(Math.abs(got - certified)).toBeLessThanOrEqual(relative * Math.abs(certified));
};

describe("mean, deviation, autocorrelation (NIST StRD univariate sets)", () => {
  // Data as several public test suites print StRD's files. Certified values: the means and Lottery's row were read
  // there; the other deviations and autocorrelations are from memory.
  it.each([
    ["mavro", strd.mavro, 50, 2.001856, 0.000429123454003053, 0.937989183438248],
    ["lottery", strd.lottery, 218, 518.95871559633, 291.699727470969, -0.120948622967393],
    ["lew", strd.lew, 200, -177.435, 277.332168044316, -0.307304800605679],
    ["michelson", strd.michelson, 100, 299.8524, 0.0790105478190518, 0.535199668621283],
  ] as const)("[MOD-83, MOD-84] %s gives its certified values", (_name, data, n, mean, sd, r1) => {
    const got = moments(data);
    expect(got?.n).toBe(n);
    near(got?.mean ?? null, mean, 1e-14);
    near(got?.sd ?? null, sd, 1e-10);
    near(must(autocorrelation(data)), r1, 1e-10);
  });

  it("[MOD-83] no digit is lost far from zero (StRD NumAcc1, 3, 4), where sums of squares give NaN", () => {
    expect(moments([10000001, 10000003, 10000002])).toEqual({ n: 3, mean: 10000002, sd: 1 });
    for (const at of [1_000_000, 10_000_000]) {
      const data = numAcc(at);
      near(moments(data)?.mean ?? null, at + 0.2, 1e-14);
      near(moments(data)?.sd ?? null, 0.1, 1e-8);
    }
    const data = numAcc(10_000_000);
    const sum = data.reduce((a, x) => a + x, 0);
    const squares = data.reduce((a, x) => a + x * x, 0);
    expect(
      Math.abs(Math.sqrt((squares - sum ** 2 / data.length) / (data.length - 1)) - 0.1),
    ).not.toBeLessThan(0.01);
  });

  it("[MOD-83] equals simple-statistics on random values", () => {
    const values = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(values, (xs) => {
        expect(moments(xs)?.mean).toBeCloseTo(simple.mean(xs), 6);
        expect(moments(xs)?.sd).toBeCloseTo(simple.sampleStandardDeviation(xs), 5);
      }),
      { seed: 83 },
    );
  });

  it("[MOD-83, MOD-84] names each question that it cannot answer", () => {
    expect(moments([])).toBeNull();
    expect(moments([4])?.sd).toBeNull();
    expect(autocorrelation([2, 2, 2]).ok).toBe(false);
    expect(autocorrelation([1, 2], 2).ok).toBe(false);
    expect(must(autocorrelation([1, 5, 2], 0))).toBe(1);
  });
});

describe("lines", () => {
  it("[MOD-85] Norris gives its certified values (NIST StRD linear regression)", () => {
    const line = must(regressionLine(norris));
    near(line.slope, nist.norris.b1, 1e-13);
    near(line.intercept, nist.norris.b0, 1e-11);
    near(line.slopeSe, nist.norris.se1, 1e-11);
    near(line.interceptSe, nist.norris.se0, 1e-11);
    near(line.residualSd, nist.norris.resSd, 1e-11);
    near(line.r2, nist.norris.r2, 1e-13);
    near(line.regressionSs, nist.norris.ssr, 1e-13);
    near(line.residualSs, nist.norris.sse, 1e-11);
    near(line.residualSs / 34, nist.norris.mse, 1e-11);
    near(line.f, nist.norris.F, 1e-11);
  });

  it("[MOD-86] Theil-Sen on Norris equals two other implementations' slope and intercept", () => {
    const line = must(theilSenLine(norris));
    near(line.slope, 1.0021968365553604, 1e-14);
    near(line.intercept, -0.30109841827769, 1e-11);
    const other = new TheilSenRegression(nist.norris.x, nist.norris.y);
    near(line.slope, other.slope, 1e-14);
    near(line.intercept, other.intercept, 1e-11);
  });

  it("[MOD-85, MOD-86] both find a true line, and equal other implementations on random points", () => {
    // Numbers of points for which both medians are single values, because the package takes the lower of two middle
    // values.
    const points = fc
      .constantFrom(3, 7, 11, 15, 19, 23)
      .chain((n) => fc.tuple(distinct(n), fc.array(coordinate, { minLength: n, maxLength: n })));
    fc.assert(
      fc.property(points, ([xs, ys]) => {
        const pairs = xs.map((x, i) => ({ x, y: ys[i] ?? 0 }));
        const mine = must(regressionLine(pairs));
        const other = simple.linearRegression(pairs.map((p) => [p.x, p.y]));
        expect(mine.slope).toBeCloseTo(other.m, 9);
        expect(mine.intercept).toBeCloseTo(other.b, 7);
        const robust = must(theilSenLine(pairs));
        const sen = new TheilSenRegression(xs, ys);
        expect(robust.slope).toBeCloseTo(sen.slope, 9);
        expect(robust.intercept).toBeCloseTo(sen.intercept, 7);
        const exact = pairs.map((p) => ({ x: p.x, y: 3 - 2 * p.x }));
        expect(must(theilSenLine(exact))).toEqual({ slope: -2, intercept: 3 });
        expect(must(regressionLine(exact)).slope).toBeCloseTo(-2, 10);
      }),
      { seed: 85 },
    );
  });

  it("[MOD-86] one wrong reading in ten changes least squares, not Theil-Sen", () => {
    const pairs = Array.from({ length: 10 }, (_, x) => ({ x, y: x === 9 ? 900 : x }));
    expect(must(theilSenLine(pairs)).slope).toBe(1);
    expect(must(regressionLine(pairs)).slope).toBeGreaterThan(20);
  });

  it("[MOD-85, MOD-86] refuse points that determine no line", () => {
    const upright = [1, 2, 3].map((y) => ({ x: 4, y }));
    expect(regressionLine(upright).ok).toBe(false);
    expect(theilSenLine(upright).ok).toBe(false);
    expect(regressionLine(upright.slice(1)).ok).toBe(false);
    const level = [1, 2, 3].map((x) => ({ x, y: 5 }));
    expect(must(regressionLine(level))).toMatchObject({ slope: 0, r2: null });
  });
});
