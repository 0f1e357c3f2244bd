import { found, notFinite, type Outcome, outside, refused } from "../outcome.ts";

/** Settings of a CUSUM chart, all in the unit of the values. */
export interface CusumPlan {
  target: number;
  /** Slack: half of the smallest shift that should be found. */
  slack: number;
  /** Decision interval. */
  decision: number;
}

export interface CusumChart {
  high: number[];
  low: number[];
  /** First value at which either sum is over the decision interval, and on which side; or null. */
  signal: { index: number; side: "high" | "low" } | null;
}

/**
 * Returns the tabular cumulative sums: high[i] = max(0, high[i - 1] + x[i] - target - slack) and low[i] = max(0, low[i
 * - 1] + target - slack - x[i]) (NIST/SEMATECH e-Handbook 6.3.2.3). Refuses
 * values that are no figures, and a slack or interval below 0.
 */
export function cusumChart(values: readonly number[], plan: CusumPlan): Outcome<CusumChart> {
  const why =
    notFinite("value", values) ??
    notFinite("target", [plan.target]) ??
    outside("slack", plan.slack, 0, Number.MAX_VALUE) ??
    outside("decision interval", plan.decision, 0, Number.MAX_VALUE);
  if (why) return refused(why);
  const high: number[] = [];
  const low: number[] = [];
  let signal: CusumChart["signal"] = null;
  values.forEach((x, index) => {
    const up = Math.max(0, (high.at(-1) ?? 0) + x - plan.target - plan.slack);
    const down = Math.max(0, (low.at(-1) ?? 0) + plan.target - plan.slack - x);
    high.push(up);
    low.push(down);
    if (!signal && up > plan.decision) signal = { index, side: "high" };
    if (!signal && down > plan.decision) signal = { index, side: "low" };
  });
  return found({ high, low, signal });
}
