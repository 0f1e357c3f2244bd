import { found, type Outcome, refused } from "../outcome.ts";
import { badPair, type Pair } from "./point.ts";

/**
 * Returns the Theil-Sen line: the median of the slopes between all pairs of points with different x, and the median of
 * y - slope x (Sen, JASA 63, 1968, 1379-1389). Up to 29 % of outliers do not move it far. O(n^2).
 */
export function theilSenLine(pairs: readonly Pair[]): Outcome<{ slope: number; intercept: number }> {
  const why = badPair(pairs);
  if (why) return refused(why);
  const slopes = pairs.flatMap((a, i) =>
    pairs
      .slice(i + 1)
      .filter((b) => b.x !== a.x)
      .map((b) => (b.y - a.y) / (b.x - a.x)),
  );
  const slope = median(slopes);
  if (slope === null) return refused("two different x are needed");
  const intercept = median(pairs.map((p) => p.y - slope * p.x));
  return intercept === null ? refused("no pairs") : found({ slope, intercept });
}

/** Returns the middle value, or the mean of the middle two; null for none. */
export function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.ceil(sorted.length / 2) - 1];
  return upper === undefined || lower === undefined ? null : (upper + lower) / 2;
}
