import { found, type Outcome, refused } from "../outcome.ts";
import { gamma } from "./gamma.ts";
import type { Lifetime } from "./kaplanMeier.ts";

/** A two-parameter Weibull law fitted to lifetimes, in their unit. */
export interface WeibullFit {
  /** Characteristic life: 63.2 % of the items have failed by this time. */
  scale: number;
  /** Below 1 failures become rarer with age, above 1 more frequent. */
  shape: number;
  negLogLikelihood: number;
  aic: number;
  mean: number;
  sd: number;
}

/**
 * Fits by maximum likelihood with right censoring (NIST e-Handbook 8.4.1.3). The shape b solves sum t^b ln t / sum t^b
 * - 1 / b = mean ln t of the failures (sums over all lifetimes). Bisection finds it, because the left side grows with
 * b. The scale is (sum t^b / failures)^(1 / b). Sd = scale sqrt(G(1 + 2/b) - G(1 + 1/b)^2); the page prints it without
 * the minus. Needs two failures, and positive times that are not all equal.
 */
export function fitWeibull(lifetimes: readonly Lifetime[]): Outcome<WeibullFit> {
  const failures = lifetimes.filter((l) => l.failed);
  if (failures.length < 2) return refused("two failures are needed");
  if (!lifetimes.every((l) => l.time > 0)) return refused("times must be positive");
  const longest = Math.max(...lifetimes.map((l) => l.time));
  // Times are scaled to the longest so that powers stay finite.
  const logs = lifetimes.map((l) => Math.log(l.time / longest));
  const meanLog = failures.reduce((sum, l) => sum + Math.log(l.time / longest), 0) / failures.length;
  if (!(meanLog < 0)) return refused("no failure came before the longest time");

  const score = (b: number) => {
    const powers = logs.map((u) => Math.exp(b * u));
    const all = powers.reduce((sum, p) => sum + p, 0);
    return logs.reduce((sum, u, i) => sum + u * (powers[i] ?? 0), 0) / all - 1 / b - meanLog;
  };
  const shape = rootOfRising(score);
  const powers = logs.reduce((sum, u) => sum + Math.exp(shape * u), 0);
  const scale = longest * (powers / failures.length) ** (1 / shape);
  const logLikelihood =
    failures.reduce((sum, l) => sum + Math.log(shape / scale) + (shape - 1) * Math.log(l.time / scale), 0) -
    lifetimes.reduce((sum, l) => sum + (l.time / scale) ** shape, 0);
  const first = gamma(1 + 1 / shape);
  return found({
    scale,
    shape,
    negLogLikelihood: -logLikelihood,
    aic: 4 - 2 * logLikelihood,
    mean: scale * first,
    sd: scale * Math.sqrt(gamma(1 + 2 / shape) - first ** 2),
  });
}

/** Returns the share that failed by a time: 1 - exp(-(t / scale)^shape). */
export function weibullFailed(time: number, fit: { scale: number; shape: number }): number {
  return time <= 0 ? 0 : -Math.expm1(-((time / fit.scale) ** fit.shape));
}

/** Returns the root of a function that rises through zero somewhere above 0, to the last bits of a double. */
function rootOfRising(f: (x: number) => number): number {
  let low = 1;
  let high = 1;
  while (f(low) > 0) low /= 2;
  while (f(high) < 0) high *= 2;
  for (let i = 0; i < 200 && high - low > Number.EPSILON * high; i++) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
