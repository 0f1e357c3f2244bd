import { found, notFinite, type Outcome, refused } from "../outcome.ts";

/** An individuals and moving-range chart. Indexes are positions in the series given. */
export interface IndividualsChart {
  mean: number;
  movingRanges: number[];
  meanRange: number;
  upper: number;
  lower: number;
  rangeUpper: number;
  /** Values outside the limits. */
  outside: number[];
  /** Values whose difference from the value before is over the range's limit. */
  jumps: number[];
}

/** Expected range of two normal values, in standard deviations, and the range chart's factor for pairs. */
const D2 = 1.128;
const D4 = 3.267;

/**
 * Returns the individuals control chart: limits mean ± 3 · (mean moving range / 1.128); moving-range limit 3.267 times
 * the mean range (NIST/SEMATECH e-Handbook 6.3.2.2). Needs two values.
 */
export function individualsChart(values: readonly number[]): Outcome<IndividualsChart> {
  if (values.length < 2) return refused("a moving range needs two values");
  const why = notFinite("value", values);
  if (why) return refused(why);
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  const movingRanges = values.slice(1).map((x, i) => Math.abs(x - (values[i] ?? x)));
  const meanRange = movingRanges.reduce((sum, r) => sum + r, 0) / movingRanges.length;
  const upper = mean + (3 * meanRange) / D2;
  const lower = mean - (3 * meanRange) / D2;
  const rangeUpper = D4 * meanRange;
  return found({
    mean,
    movingRanges,
    meanRange,
    upper,
    lower,
    rangeUpper,
    outside: indexesWhere(values, (x) => x > upper || x < lower),
    jumps: indexesWhere(movingRanges, (r) => r > rangeUpper).map((i) => i + 1),
  });
}

function indexesWhere(values: readonly number[], test: (x: number) => boolean): number[] {
  return values.flatMap((x, i) => (test(x) ? [i] : []));
}
