import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { chiSquareAtMost, chiSquareQuantile } from "../../shared/models/statistics/chiSquare.ts";
import { gamma } from "../../shared/models/statistics/gamma.ts";
import { kaplanMeier, type Lifetime } from "../../shared/models/statistics/kaplanMeier.ts";
import {
  fitGrowth,
  growthInterval,
  laplaceTrend,
  reverseArrangements,
} from "../../shared/models/statistics/powerLaw.ts";
import { fitWeibull, weibullFailed } from "../../shared/models/statistics/weibull.ts";
import {
  weibullIntervals,
  weibullSpread,
  weibullSurvival,
} from "../../shared/models/statistics/weibullInterval.ts";
import { Chance } from "../sim/chance.ts";
import nist from "./data/nistHandbook.json" with { type: "json" };
import { must } from "./must.ts";

const { jStat } = jstat;

const lives = (failed: readonly number[], watched: readonly number[]): Lifetime[] => [
  ...failed.map((time) => ({ time, failed: true })),
  ...watched.map((time) => ({ time, failed: false })),
];
const close = (values: readonly number[], digits: number) => values.map((v) => expect.closeTo(v, digits));

describe("Kaplan-Meier", () => {
  it("[MOD-90] NIST e-Handbook 8.2.1.5: 20 on test, six failures", () => {
    const steps = kaplanMeier(lives(nist.kaplanMeier.fail, nist.kaplanMeier.censor));
    expect(steps.map((s) => s.atRisk)).toEqual(nist.kaplanMeier.n);
    expect(steps.map((s) => s.survival)).toEqual(close(nist.kaplanMeier.R, 6));
    // Greenwood's errors by the formula; the page prints none.
    expect(steps.map((s) => s.se)).toEqual(
      close([0.048734, 0.067082, 0.081388, 0.091921, 0.101357, 0.112141], 6),
    );
  });

  it("[MOD-90] Miller's AML maintained group (data from memory)", () => {
    const steps = kaplanMeier(lives([9, 13, 18, 23, 31, 34, 48], [13, 28, 45, 161]));
    expect(steps.map((s) => s.survival)).toEqual(
      close([0.9091, 0.8182, 0.7159, 0.6136, 0.4909, 0.3682, 0.1841], 4),
    );
    expect(steps.map((s) => s.se)).toEqual(
      close([0.0867, 0.1163, 0.1397, 0.1526, 0.1642, 0.1627, 0.1535], 4),
    );
  });

  it("[MOD-90] Freireich's 6-MP group: one censored at a failure's time was still at risk (data from memory)", () => {
    const steps = kaplanMeier(
      lives([6, 6, 6, 7, 10, 13, 16, 22, 23], [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]),
    );
    expect(steps.map((s) => s.survival)).toEqual(
      close([0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482], 4),
    );
    expect(steps[0]).toMatchObject({ time: 6, atRisk: 21, failures: 3 });
  });

  it("[MOD-90] without censoring it is the share left; it never rises; the order of input does not matter", () => {
    const times = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(times, (ts) => {
        const steps = kaplanMeier(lives(ts, []));
        for (const s of steps)
          expect(s.survival).toBeCloseTo(ts.filter((t) => t > s.time).length / ts.length, 10);
        expect(steps.at(-1)?.se).toBeNull();
        expect(kaplanMeier(lives([...ts].reverse(), []))).toEqual(steps);
      }),
      { seed: 90 },
    );
    expect(kaplanMeier([])).toEqual([]);
  });
});

describe("Weibull", () => {
  const data = lives(nist.weibull.fail, nist.weibull.censor);

  it("[MOD-91] NIST e-Handbook 8.4.1.3: ten failures, ten censored at 500 h", () => {
    const fit = must(fitWeibull(data));
    // The page prints 606.5280 because its optimiser stopped early. The converged scale is 606.52756.
    expect(Math.abs(fit.scale - nist.weibull.eta)).toBeLessThan(1e-3);
    expect(fit.scale).toBeCloseTo(606.52756, 4);
    expect(Math.abs(fit.shape - nist.weibull.beta)).toBeLessThan(1e-4);
    expect(fit.shape).toBeCloseTo(1.720797, 6);
    expect(fit.negLogLikelihood).toBeCloseTo(75.13462, 5);
    expect(fit.negLogLikelihood).toBeCloseTo(nist.weibull.negLogLik, 3);
    expect(fit.aic).toBeCloseTo(154.26924, 5);
    expect(fit.aic).toBeCloseTo(nist.weibull.aic, 2);
    expect(fit.mean).toBeCloseTo(nist.weibull.mean, 2);
    // The page's formula for sd has lost its minus sign; its value is right.
    expect(fit.sd).toBeCloseTo(nist.weibull.sd, 1);
  });

  it("[MOD-91] mean, sd and share failed equal jStat's", () => {
    const fit = must(fitWeibull(data));
    // jStat's gamma function has eight digits.
    expect(fit.mean).toBeCloseTo(jStat.weibull.mean(fit.scale, fit.shape), 4);
    expect(fit.sd).toBeCloseTo(Math.sqrt(jStat.weibull.variance(fit.scale, fit.shape)), 3);
    const printed = { scale: 606.528, shape: 1.7208 };
    expect(weibullFailed(300, printed)).toBeCloseTo(0.2575379, 7);
    expect(weibullFailed(500, printed)).toBeCloseTo(0.511897, 6);
    for (const t of [0, 54, 300, 500, 2000]) {
      expect(weibullFailed(t, fit)).toBeCloseTo(jStat.weibull.cdf(t, fit.scale, fit.shape), 10);
    }
    for (const x of [0.1, 0.5, 1, 1.5811, 4, 10]) expect(gamma(x) / jStat.gammafn(x)).toBeCloseTo(1, 7);
    expect(gamma(0.5)).toBeCloseTo(Math.sqrt(Math.PI), 12);
    expect(gamma(10)).toBeCloseTo(362_880, 6);
    expect(gamma(0)).toBeNaN();
  });

  it("[MOD-91] no nearby law is more likely, and a change of unit changes the scale only", () => {
    const sample = fc.tuple(
      fc.uniqueArray(fc.integer({ min: 1, max: 400 }), { minLength: 2, maxLength: 15 }),
      fc.array(fc.integer({ min: 400, max: 500 }), { maxLength: 10 }),
    );
    const logLikelihood = (all: readonly Lifetime[], scale: number, shape: number) =>
      all.reduce(
        (sum, l) =>
          sum -
          (l.time / scale) ** shape +
          (l.failed ? Math.log((shape / scale) * (l.time / scale) ** (shape - 1)) : 0),
        0,
      );
    fc.assert(
      fc.property(sample, ([failed, watched]) => {
        const all = lives(failed, watched);
        const fit = must(fitWeibull(all));
        const best = logLikelihood(all, fit.scale, fit.shape);
        expect(best).toBeCloseTo(-fit.negLogLikelihood, 6);
        for (const [a, b] of [
          [1.01, 1],
          [0.99, 1],
          [1, 1.01],
          [1, 0.99],
        ] as const) {
          expect(logLikelihood(all, fit.scale * a, fit.shape * b)).toBeLessThanOrEqual(best + 1e-9);
        }
        const minutes = must(fitWeibull(all.map((l) => ({ ...l, time: l.time * 60 }))));
        expect(minutes.shape / fit.shape).toBeCloseTo(1, 9);
        expect(minutes.scale / fit.scale / 60).toBeCloseTo(1, 9);
      }),
      { seed: 91 },
    );
  });

  it("[MOD-91] refuses data that determine no law", () => {
    expect(fitWeibull(lives([5], [9])).ok).toBe(false);
    expect(fitWeibull(lives([5, 5], [])).ok).toBe(false);
    expect(fitWeibull(lives([0, 5], [])).ok).toBe(false);
  });
});

describe("the interval of a Weibull law", () => {
  // Meeker and Escobar 1998, Table C.2: km to failure of 38 shock absorbers, 11 of which failed (data from memory; the
  // fit below agrees to every digit that is published).
  const failed = [6700, 9120, 12200, 13150, 14300, 17520, 20100, 20900, 22700, 26510, 27490];
  const running = [
    6950, 7820, 8790, 9660, 9820, 11310, 11690, 11850, 11880, 12140, 12870, 13330, 13470, 14040, 17540, 17890,
    18450, 18960, 18980, 19410, 20100, 20150, 20320, 23490, 27410, 27890, 28100,
  ];
  const shock = lives(failed, running);
  const spreadOf = (all: readonly Lifetime[]) => weibullSpread(all, must(fitWeibull(all)));

  it("[HIS-33] has the covariances that the R package weibulltools publishes for the shock absorbers", () => {
    expect(shock).toHaveLength(38);
    const { mu, sigma, varMu, covariance, varSigma } = spreadOf(shock);
    // Its test's snapshot of ml_estimation: mu, sigma and their covariance matrix.
    expect([mu, sigma]).toEqual(close([10.2298631, 0.3164092], 5));
    // Its optimiser stopped some 1e-6 short of the top.
    expect([varMu, covariance, varSigma]).toEqual(close([0.012075836, 0.003990396, 0.005353183], 6));
  });

  it("[HIS-33] holds the fit, follows the unit, and grows with the level", () => {
    const spread = spreadOf(shock);
    const { scale, shape } = weibullIntervals(spread);
    const metres = weibullIntervals(spreadOf(shock.map((l) => ({ ...l, time: l.time * 1_000 }))));
    expect(metres.scale.low / scale.low).toBeCloseTo(1_000, 6);
    expect([metres.shape.low, metres.shape.high]).toEqual(close([shape.low, shape.high], 9));
    for (const { value, low, high } of [scale, shape, weibullSurvival(15_000, spread)])
      expect(low < value && value < high).toBe(true);
    // At the characteristic life 36.8 % are left, by definition.
    expect(weibullSurvival(scale.value, spread).value).toBeCloseTo(Math.exp(-1), 12);
    expect(weibullSurvival(15_000, spread).value).toBeCloseTo(
      1 - weibullFailed(15_000, must(fitWeibull(shock))),
      9,
    );
    const narrow = weibullSurvival(15_000, spread, 1);
    expect(narrow.high).toBeLessThan(weibullSurvival(15_000, spread).high);
  });

  it("[HIS-33] covers the true shape in 19 of 20 simulated samples of thirty, ten of them still running", () => {
    const chance = new Chance(9_133);
    let covered = 0;
    const samples = 600;
    for (let i = 0; i < samples; i += 1) {
      const times = Array.from({ length: 30 }, () => 100 * (-Math.log(1 - chance.next())) ** (1 / 2));
      const all = times.map((time) =>
        time > 104.8 ? { time: 104.8, failed: false } : { time, failed: true },
      );
      const { shape } = weibullIntervals(spreadOf(all));
      if (shape.low < 2 && 2 < shape.high) covered += 1;
    }
    // Three standard errors of a share of 0.95, and the normal interval's own error with twenty failures.
    expect(covered / samples).toBeGreaterThan(0.92);
    expect(covered / samples).toBeLessThan(0.975);
  });
});

describe("chi-square", () => {
  it("[HIS-34] has the critical values of NIST e-Handbook 1.3.6.7.4, and jStat's", () => {
    // Lower and upper 2.5 % of the printed table, from memory.
    for (const [degrees, low, high] of [
      [2, 0.051, 7.378],
      [10, 3.247, 20.483],
      [20, 9.591, 34.17],
      [100, 74.222, 129.561],
    ] as const) {
      expect(chiSquareQuantile(0.025, degrees)).toBeCloseTo(low, 3);
      expect(chiSquareQuantile(0.975, degrees)).toBeCloseTo(high, 3);
    }
    for (const [value, degrees] of [
      [3, 4],
      [25, 20],
      [310, 300],
    ] as const)
      expect(chiSquareAtMost(value, degrees)).toBeCloseTo(jStat.chisquare.cdf(value, degrees), 6);
    expect([chiSquareAtMost(1, 3), chiSquareQuantile(1, 4), chiSquareAtMost(1, 1_002)]).toEqual([
      NaN,
      NaN,
      NaN,
    ]);
    expect(chiSquareAtMost(0, 4)).toBe(0);
  });
});

describe("growth", () => {
  // NIST e-Handbook 8.4.5.1's failure times over 1500 h (data from memory).
  const failures = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];

  it("[MOD-92] NIST e-Handbook 8.4.5: growth slope 0.516, 310 h between failures at the end (from memory)", () => {
    const fit = must(fitGrowth(failures, 1500));
    expect(fit.exponent).toBeCloseTo(0.53723, 5);
    expect(fit.exponentUnbiased).toBeCloseTo(0.48351, 5);
    expect(fit.slope).toBeCloseTo(0.516, 3);
    expect(fit.mtbfAtEnd).toBeCloseTo(310.234, 3);
  });

  it("[MOD-92] Laplace's score and reverse arrangements of the same data (arithmetic; R = 33)", () => {
    expect(must(laplaceTrend(failures, 1500))).toBeCloseTo(-1.32695, 5);
    const gaps = failures.map((t, i) => t - (failures[i - 1] ?? 0));
    expect(gaps).toEqual([5, 35, 3, 132, 214, 323, 35, 48, 504, 179]);
    expect(reverseArrangements(gaps)).toBe(33);
  });

  it("[MOD-92] even intervals show no trend; rarer failures give a negative score and a slope above 0", () => {
    expect(must(laplaceTrend([250, 500, 750], 1000))).toBe(0);
    expect(must(laplaceTrend([1, 2, 4, 8, 16], 100))).toBeLessThan(-2);
    expect(must(fitGrowth([1, 2, 4, 8, 16], 100)).slope).toBeGreaterThan(0);
    expect(reverseArrangements([1, 2, 3, 4])).toBe(6);
    expect(reverseArrangements([4, 3, 2, 1])).toBe(0);
  });

  it("[HIS-34] gives the exponent's exact interval, which the military handbook test agrees with", () => {
    const { value, low, high } = must(growthInterval(failures, 1500));
    expect([value, low, high]).toEqual(close([0.53723, (0.53723 * 9.591) / 20, (0.53723 * 34.17) / 20], 4));
    // The test: 2 sum ln(T / t) is beyond the upper 2.5 % of chi-square with 20 degrees where the interval is below 1.
    const statistic = 2 * failures.reduce((sum, t) => sum + Math.log(1500 / t), 0);
    expect(statistic).toBeCloseTo(37.228, 3);
    expect([high < 1, statistic > chiSquareQuantile(0.975, 20)]).toEqual([true, true]);
    const even = must(growthInterval([250, 500, 750], 1000));
    expect(even.low < 1 && 1 < even.high).toBe(true);
    expect(growthInterval([5], 1500).ok).toBe(false);
    expect(
      growthInterval(
        Array.from({ length: 501 }, (_, i) => i + 1),
        1500,
      ).ok,
    ).toBe(false);
  });

  it("[MOD-92] refuses failures outside the time of observation", () => {
    expect(fitGrowth([5, 2000], 1500).ok).toBe(false);
    expect(fitGrowth([5], 1500).ok).toBe(false);
    expect(fitGrowth([1500, 1500], 1500).ok).toBe(false);
    expect(laplaceTrend([], 10).ok).toBe(false);
    expect(laplaceTrend([11], 10).ok).toBe(false);
  });
});
