import fc from "fast-check";
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { describe, expect, it } from "vitest";
import { fitWarmUp, type WarmUpFit, type WarmUpReading } from "../../shared/models/warmUp/fit.ts";
import { leastSquares } from "../../shared/models/warmUp/leastSquares.ts";
import { heatedCurve, temperatureAfter, timeUntil } from "../../shared/models/warmUp/newton.ts";
import { timeLeft } from "../../shared/models/warmUp/predict.ts";
import { must } from "./must.ts";

const series = (times: readonly number[], temperatures: readonly number[]): WarmUpReading[] =>
  times.map((seconds, i) => ({ seconds, temperature: temperatures[i] ?? Number.NaN }));
const certain = (readings: readonly WarmUpReading[], from?: WarmUpReading): WarmUpFit => {
  const fit = must(fitWarmUp(readings, from));
  if (!fit) throw new Error("no fit");
  return fit;
};
const error = (fit: WarmUpFit, i: number) => Math.sqrt(fit.covariance[i]?.[i] ?? Number.NaN);
const near = (got: number, want: number, part: number) => expect(Math.abs(got / want - 1)).toBeLessThan(part);
/** Returns a warm-up of readings every 10 s from −10 towards 90, τ 480 s. */
const exact = (n: number, every = 10) =>
  Array.from({ length: n }, (_, i) => ({
    seconds: i * every,
    temperature: 90 - 100 * Math.exp((-i * every) / 480),
  }));
/**
 * Returns standard normal values from one seed: a linear congruential sequence (Numerical Recipes) through Box and
 * Muller.
 */
function normals(seed: number): () => number {
  let state = seed >>> 0;
  const next = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
}

describe("Newton's law in closed form", () => {
  it("[MOD-29] from −10 towards 90 at 8 min: 36.47386 after 5 min, 40 degC after 8·ln 2 = 5.545177 min", () => {
    const curve = { start: -10, steady: 90, tau: 8 };
    expect(must(temperatureAfter(curve, 5))).toBeCloseTo(36.47386, 5);
    expect(must(timeUntil(curve, 40))).toBeCloseTo(5.545177, 6);
    expect(must(temperatureAfter(curve, 0))).toBe(-10);
  });

  it("[MOD-29] a 2 kW heater on 60 kJ/K losing 25 W/K at −20 degC: towards 60 at 2400 s, +10 degC after 1128.009 s", () => {
    const curve = must(heatedCurve({ joulesPerKelvin: 60_000, wattsPerKelvin: 25 }, 2000, -20, -20));
    expect(curve).toEqual({ start: -20, steady: 60, tau: 2400 });
    expect(must(timeUntil(curve, 10))).toBeCloseTo(1128.009, 3);
  });

  it("[MOD-29] time to a temperature and the temperature then agree, warming and cooling (property)", () => {
    const t = fc.double({ min: -40, max: 120, noNaN: true });
    fc.assert(
      fc.property(
        t,
        t,
        fc.double({ min: 1, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (start, steady, tau, x) => {
          fc.pre(Math.abs(start - steady) > 1);
          const curve = { start, steady, tau };
          const then = must(temperatureAfter(curve, x * tau));
          expect(must(timeUntil(curve, then))).toBeCloseTo(x * tau, 5);
        },
      ),
      { seed: 1701 },
    );
  });

  it("[MOD-36] a temperature never passed, a heater without loss and a negative time are refused", () => {
    const curve = { start: -10, steady: 90, tau: 8 };
    expect(timeUntil(curve, 90).ok).toBe(false);
    expect(timeUntil(curve, 91).ok).toBe(false);
    expect(timeUntil(curve, -11).ok).toBe(false);
    expect(temperatureAfter(curve, -1).ok).toBe(false);
    expect(temperatureAfter({ ...curve, tau: 0 }, 1).ok).toBe(false);
    expect(heatedCurve({ joulesPerKelvin: 60_000, wattsPerKelvin: 0 }, 2000, -20, -20).ok).toBe(false);
  });
});

/** Fits b1·(1 − e^(−b2·x)) with the solver directly. */
const saturation = (data: readonly WarmUpReading[], start: readonly number[]) =>
  leastSquares(
    ([p = 0, q = 0], i, slopes) => {
      const { seconds, temperature } = data[i] as WarmUpReading;
      slopes[0] = -Math.expm1(-q * seconds);
      slopes[1] = p * seconds * Math.exp(-q * seconds);
      return p * slopes[0] - temperature;
    },
    data.length,
    start,
  );

describe("fit of a warm-up", () => {
  // NIST StRD BoxBOD and Misra1a, b1·(1 − e^(−b2·x)): data and certified values from memory. They confirm each other:
  // wrong data would not give eleven right digits.
  const boxBod = series([1, 2, 3, 5, 7, 10], [109, 149, 149, 191, 213, 224]);
  const misra1a = series(
    [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
    [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
  );

  it("[MOD-30] BoxBOD (NIST StRD, high difficulty) to its certified values", () => {
    const fit = certain(series([1, 2, 3, 5, 7, 10], [109, 149, 149, 191, 213, 224]), {
      seconds: 0,
      temperature: 0,
    });
    near(fit.steady, 213.80940889, 1e-9);
    near(fit.rate, 0.54723748542, 1e-9);
    near(fit.rss, 1168.0088766, 1e-9);
    near(error(fit, 0), 12.354515176, 1e-7);
    near(error(fit, 2), 0.10455993237, 1e-7);
    near(fit.deviation, 17.088072423, 1e-9);
  });

  it("[MOD-30] Misra1a (NIST StRD, lower difficulty) to its certified values", () => {
    const fit = certain(misra1a, { seconds: 0, temperature: 0 });
    near(fit.steady, 238.94212918, 1e-9);
    near(fit.rate, 5.5015643181e-4, 1e-9);
    near(fit.rss, 0.12455138894, 1e-9);
    near(error(fit, 0), 2.7070075241, 1e-7);
    near(error(fit, 2), 7.2668688436e-6, 1e-7);
    near(fit.deviation, 0.1018787633, 1e-9);
  });

  // NIST StRD starting values, from memory. BoxBOD's first, (1, 1), leads any such step onto a plateau, which is why a
  // fit first tries 40 rates.
  it.each([
    ["Misra1a", misra1a, [500, 0.0001], 238.94212918, 5.5015643181e-4],
    ["Misra1a", misra1a, [250, 0.0005], 238.94212918, 5.5015643181e-4],
    ["BoxBOD", boxBod, [100, 0.75], 213.80940889, 0.54723748542],
  ])("[MOD-30] %s converges from NIST's far start %#", (_name, data, start, b1, b2) => {
    const got = saturation(data, start);
    near(got?.parameters[0] ?? 0, b1, 1e-9);
    near(got?.parameters[1] ?? 0, b2, 1e-9);
  });

  it("[MOD-30] also converges from a start too fast or too slow, where undamped steps diverge", () => {
    for (const start of [
      [50, 0.05],
      [50, 2],
      [100, 1.2],
      [200, 2],
    ]) {
      near(saturation(boxBod, start)?.parameters[1] ?? 0, 0.54723748542, 1e-9);
    }
  });

  it("[MOD-30] gives no solution if the readings do not depend on a parameter", () => {
    const flat = leastSquares(
      ([p = 0], i, slopes) => {
        slopes[0] = 1;
        slopes[1] = 0;
        return p - i;
      },
      5,
      [1, 1],
    );
    expect(flat).toBeNull();
  });

  it("[MOD-30] reproduces the curve from readings without scatter to 1e-8", () => {
    const fit = certain(exact(60));
    near(fit.steady, 90, 1e-8);
    near(fit.rise, 100, 1e-8);
    near(1 / fit.rate, 480, 1e-8);
    expect(fit.deviation).toBeLessThan(1e-9);
  });

  it("[MOD-30] agrees with ml-levenberg-marquardt on scattered readings, whatever the curve", () => {
    for (const [seed, tau, noise] of [
      [1, 480, 0.5],
      [2, 200, 1],
      [3, 900, 0.2],
    ] as const) {
      const normal = normals(seed);
      const readings = exact(100).map((r) => ({
        seconds: r.seconds,
        temperature: 90 - 100 * Math.exp(-r.seconds / tau) + noise * normal(),
      }));
      const fit = certain(readings);
      const oracle = levenbergMarquardt(
        { x: readings.map((r) => r.seconds), y: readings.map((r) => r.temperature) },
        ([s = 0, d = 0, k = 0]) =>
          (t) =>
            s - d * Math.exp((-k * t) / 1000),
        {
          initialValues: [80, 80, 3],
          damping: 1e-3,
          maxIterations: 300,
          errorTolerance: 0,
          gradientDifference: 1e-7,
          centralDifference: true,
        },
      );
      const [steady = 0, rise = 0, rate = 0] = oracle.parameterValues;
      near(fit.steady, steady, 1e-5);
      near(fit.rise, rise, 1e-5);
      near(fit.rate, rate / 1000, 1e-5);
      expect(fit.rss).toBeLessThanOrEqual(oracle.parameterError * (1 + 1e-9));
    }
  });

  it("[MOD-30] follows a change of clock, zero or scale (property)", () => {
    const shift = fc.integer({ min: -100_000, max: 100_000 });
    const degrees = fc.integer({ min: -50, max: 50 });
    const scale = fc.constantFrom(0.2, 0.5, 1.8, 3);
    const normal = normals(7);
    const readings = exact(50).map((r) => ({ ...r, temperature: r.temperature + 0.3 * normal() }));
    const base = certain(readings);
    fc.assert(
      fc.property(shift, degrees, scale, (s, d, k) => {
        const moved = certain(
          readings.map((r) => ({ seconds: r.seconds * 2 + s, temperature: r.temperature * k + d })),
        );
        near(moved.steady - d, base.steady * k, 1e-6);
        near(moved.rise, base.rise * k, 1e-6);
        near(moved.rate, base.rate / 2, 1e-6);
      }),
      { seed: 30, numRuns: 40 },
    );
  });

  it("[MOD-30] gives no fit for too few readings, a constant temperature or a cooling oil", () => {
    expect(must(fitWarmUp(exact(4)))).toBeNull();
    expect(must(fitWarmUp([]))).toBeNull();
    expect(
      must(fitWarmUp(Array.from({ length: 30 }, (_, i) => ({ seconds: i, temperature: 20 })))),
    ).toBeNull();
    expect(must(fitWarmUp(exact(30).map((r) => ({ ...r, temperature: -r.temperature }))))).toBeNull();
  });

  it("[MOD-36] refuses readings out of order, at one moment, or of impossible temperatures", () => {
    expect(fitWarmUp([...exact(10)].reverse()).ok).toBe(false);
    expect(fitWarmUp(Array.from({ length: 6 }, () => ({ seconds: 5, temperature: 20 }))).ok).toBe(false);
    expect(fitWarmUp(exact(10).map((r) => ({ ...r, temperature: 5000 }))).ok).toBe(false);
    expect(fitWarmUp(exact(10).map((r) => ({ ...r, temperature: Number.NaN }))).ok).toBe(false);
    expect(fitWarmUp(exact(10), { seconds: 50, temperature: 0 }).ok).toBe(false);
  });
});

describe("time left to the gate", () => {
  it("[MOD-31] equals the closed form without scatter: 40 degC 8·ln 2 min after −10, less the time run", () => {
    const left = timeLeft(certain(exact(20)), 40);
    expect(left?.seconds).toBeCloseTo(480 * Math.LN2 - 190, 4);
    expect(left?.plusMinus).toBeLessThan(1e-4);
  });

  it("[MOD-31] has the standard error of 400 repeated warm-ups, within 15 percent", () => {
    const normal = normals(31);
    const clean = exact(60, 5);
    const gate = 60;
    const got = Array.from({ length: 400 }, () => {
      const fit = certain(clean.map((r) => ({ ...r, temperature: r.temperature + 0.3 * normal() })));
      const left = timeLeft(fit, gate);
      if (!left) throw new Error("no time");
      return left;
    });
    const truth = 480 * Math.log(100 / 30) - 295;
    const mean = got.reduce((sum, l) => sum + l.seconds, 0) / got.length;
    const sd = Math.sqrt(got.reduce((sum, l) => sum + (l.seconds - mean) ** 2, 0) / (got.length - 1));
    const claimed = got.reduce((sum, l) => sum + l.plusMinus, 0) / got.length;
    expect(Math.abs(mean - truth)).toBeLessThan(3 * claimed);
    expect(Math.abs(claimed / sd - 1)).toBeLessThan(0.15);
    // Two standard errors contain about 95 of 100.
    const held = got.filter((l) => Math.abs(l.seconds - truth) <= 2 * l.plusMinus).length / got.length;
    expect(held).toBeGreaterThan(0.9);
    expect(held).toBeLessThan(0.99);
  });

  it("[MOD-31] has a smaller error with more readings of one warm-up", () => {
    const sure = [15, 30, 60].map((n) => {
      const normal = normals(5);
      return timeLeft(
        certain(exact(n, 5).map((r) => ({ ...r, temperature: r.temperature + 0.1 * normal() }))),
        80,
      );
    });
    const errors = sure.map((l) => l?.plusMinus ?? Number.POSITIVE_INFINITY);
    expect(errors).toEqual([...errors].sort((a, b) => b - a));
    expect(errors[2]).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  it("[MOD-31] is null at and above the final temperature", () => {
    expect(timeLeft(certain(exact(60)), 90)).toBeNull();
    expect(timeLeft(certain(exact(60)), 95)).toBeNull();
    expect(timeLeft(certain(exact(60)), 89.9)).not.toBeNull();
  });

  // With a scatter of one kelvin, in 400 warm-ups each: the number of answers given.
  it.each([
    ["ten percent of the rise seen, gate at 20", 8, 7, 20, 0, 0],
    ["ten percent of the rise seen, gate at 80", 8, 7, 80, 0, 0],
    ["all of the rise seen, gate a tenth of a kelvin below its end", 60, 20, 89.9, 0, 4],
    ["all of the rise seen, gate five kelvins below its end", 60, 20, 85, 400, 400],
    ["a third of the rise seen, gate at half of it", 20, 10, 40, 200, 399],
  ])("[MOD-31] is null if the data do not determine it: %s", (_name, n, every, gate, least, most) => {
    const normal = normals(11);
    const answers = Array.from({ length: 400 }, () => {
      const fit = must(
        fitWarmUp(exact(n, every).map((r) => ({ ...r, temperature: r.temperature + normal() }))),
      );
      return fit ? timeLeft(fit, gate) : null;
    }).filter((l) => l !== null);
    expect(answers.length).toBeGreaterThanOrEqual(least);
    expect(answers.length).toBeLessThanOrEqual(most);
  });

  it("[MOD-31] is zero when the fit is already at the gate, never negative", () => {
    expect(timeLeft(certain(exact(60)), 40)?.seconds).toBe(0);
  });
});
