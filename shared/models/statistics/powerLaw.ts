import { found, type Outcome, refused } from "../outcome.ts";
import { chiSquareQuantile, MOST_DEGREES } from "./chiSquare.ts";
import type { Interval } from "./weibullInterval.ts";

/** A power-law (Crow-AMSAA, Duane) growth fit to the times at which a repaired item failed, watched to time T. */
export interface GrowthFit {
  /** Maximum-likelihood exponent of M(t) = a t^b: below 1 failures grow rarer. */
  exponent: number;
  /** The exponent without its bias, (n - 1) / sum ln(T / t). */
  exponentUnbiased: number;
  /** Growth slope, 1 - unbiased exponent: above 0 is improvement. */
  slope: number;
  /** Time between failures at T, from the unbiased exponent: T / (n b). */
  mtbfAtEnd: number;
}

/**
 * Fits the power-law NHPP, time-truncated: b = n / sum ln(T / t), unbiased (n - 1) / sum ln(T / t) (NIST/SEMATECH
 * e-Handbook 8.4.5, MIL-HDBK-189 in kind). Needs two failures, each after 0 and not after T.
 */
export function fitGrowth(failures: readonly number[], watchedTo: number): Outcome<GrowthFit> {
  const n = failures.length;
  if (n < 2) return refused("two failures are needed");
  if (!failures.every((t) => t > 0 && t <= watchedTo))
    return refused("failures must lie within the time watched");
  const logs = failures.reduce((sum, t) => sum + Math.log(watchedTo / t), 0);
  if (!(logs > 0)) return refused("no failure came before the end");
  const exponentUnbiased = (n - 1) / logs;
  return found({
    exponent: n / logs,
    exponentUnbiased,
    slope: 1 - exponentUnbiased,
    mtbfAtEnd: watchedTo / (n * exponentUnbiased),
  });
}

/**
 * Returns the exponent with its exact interval: 2 n b / estimate follows chi-square with 2 n degrees (Crow 1974;
 * MIL-HDBK-189; the military handbook test of NIST e-Handbook 8.2.3.4). An interval on one side of 1 is a trend that
 * this test finds at its level, two-sided.
 */
export function growthInterval(
  failures: readonly number[],
  watchedTo: number,
  level = 0.95,
): Outcome<Interval> {
  const fit = fitGrowth(failures, watchedTo);
  if (!fit.ok) return fit;
  const degrees = 2 * failures.length;
  if (degrees > MOST_DEGREES) return refused(`at most ${MOST_DEGREES / 2} failures`);
  const value = fit.value.exponent;
  const at = (share: number) => (value * chiSquareQuantile(share, degrees)) / degrees;
  return found({ value, low: at((1 - level) / 2), high: at((1 + level) / 2) });
}

/**
 * Returns the Laplace trend score, standard normal when failures come at a steady rate: (mean t - T / 2) / (T sqrt(1 /
 * (12 n))) (NIST e-Handbook 8.2.3.4). Negative: failures become rarer.
 */
export function laplaceTrend(failures: readonly number[], watchedTo: number): Outcome<number> {
  const n = failures.length;
  if (n === 0) return refused("no failures");
  if (!failures.every((t) => t >= 0 && t <= watchedTo))
    return refused("failures must lie within the time watched");
  const mean = failures.reduce((sum, t) => sum + t, 0) / n;
  return found((mean - watchedTo / 2) / (watchedTo * Math.sqrt(1 / (12 * n))));
}

/**
 * Returns the number of pairs of gaps in which the later one is longer (reverse arrangements, NIST e-Handbook 8.2.3.4).
 * A high number means improvement.
 */
export function reverseArrangements(gaps: readonly number[]): number {
  return gaps.reduce((count, gap, i) => count + gaps.slice(i + 1).filter((later) => later > gap).length, 0);
}
