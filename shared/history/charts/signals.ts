import type { StartPoint } from "./eras.ts";
import type { ChartLimits, ChartSignal, SignalRule } from "./limits.ts";

type Limits = Omit<ChartLimits, "signals">;

/**
 * Returns every signal of the starts after the baseline: a start beyond the limits of individuals, a jump beyond the
 * limit of moving ranges, an average beyond the limits of the EWMA, a sum beyond the CUSUM's decision interval.
 */
export function signalsOf(points: readonly StartPoint[], limits: Limits): ChartSignal[] {
  const { baseline, individuals, ewma, cusum } = limits;
  const from = baseline.length;
  return points.slice(from).flatMap((point, i): ChartSignal[] => {
    const { value } = point;
    const step = value - (points[from + i - 1]?.value ?? value);
    const average = ewma.averages[i] ?? limits.mean;
    const [most, least] = [ewma.uppers[i] ?? average, ewma.lowers[i] ?? average];
    const [high, low] = [cusum.high[i] ?? 0, cusum.low[i] ?? 0];
    const beyond = (rule: SignalRule, side: "high" | "low", is: boolean, found: number, limit: number) =>
      is ? [{ rule, side, point, value: found, limit }] : [];
    const { upper, lower, rangeUpper } = individuals;
    return [
      ...beyond("beyondLimits", "high", value > upper, value, upper),
      ...beyond("beyondLimits", "low", value < lower, value, lower),
      ...beyond("jump", step > 0 ? "high" : "low", Math.abs(step) > rangeUpper, Math.abs(step), rangeUpper),
      ...beyond("average", "high", average > most, average, most),
      ...beyond("average", "low", average < least, average, least),
      ...beyond("sum", "high", high > cusum.decision, high, cusum.decision),
      ...beyond("sum", "low", low > cusum.decision, low, cusum.decision),
    ];
  });
}

/**
 * Returns the start since which the sum on one side has not been back at zero: the CUSUM's estimate of when a change
 * began. Null while that sum is zero.
 */
export function changedSince(
  points: readonly StartPoint[],
  limits: Limits,
  side: "high" | "low",
): StartPoint | null {
  const sums = limits.cusum[side];
  const since = sums.lastIndexOf(0) + 1;
  return points[limits.baseline.length + since] ?? null;
}
