import { found, notFinite, type Outcome, refused } from "../outcome.ts";

/** Settings of an EWMA chart. */
export interface EwmaPlan {
  target: number;
  sd: number;
  /** Weight of the newest value, above 0 and at most 1. */
  lambda: number;
  /** Width of the limits in standard deviations of the average. */
  width: number;
}

export interface EwmaChart {
  averages: number[];
  /** Limits after many values. */
  upper: number;
  lower: number;
  /** Exact limits at each value: narrower at the beginning. */
  uppers: number[];
  lowers: number[];
  /** First value whose average is outside its exact limits, or null. */
  firstOutside: number | null;
}

/**
 * Returns the chart of the exponentially weighted moving average: z[i] = lambda x[i] + (1 - lambda) z[i - 1], z[0] the
 * target; limits target ± width · sd · sqrt(lambda / (2 - lambda) · (1 - (1 - lambda)^(2 i))) (NIST/SEMATECH e-Handbook
 * 6.3.2.4; its printed lower limit 47.4115 is truncated from 47.41157).
 */
export function ewmaChart(values: readonly number[], plan: EwmaPlan): Outcome<EwmaChart> {
  const { target, sd, lambda, width } = plan;
  if (!(lambda > 0 && lambda <= 1)) return refused("lambda must be above 0 and at most 1");
  if (!(sd > 0 && width > 0)) return refused("sd and width must be positive");
  const why =
    notFinite("value", values) ?? notFinite("target", [target]) ?? notFinite("setting", [sd, width]);
  if (why) return refused(why);
  let z = target;
  const averages = values.map((x) => {
    z = lambda * x + (1 - lambda) * z;
    return z;
  });
  const far = width * sd * Math.sqrt(lambda / (2 - lambda));
  const reach = values.map((_, i) => far * Math.sqrt(1 - (1 - lambda) ** (2 * (i + 1))));
  const first = averages.findIndex((a, i) => Math.abs(a - target) > (reach[i] ?? far));
  return found({
    averages,
    upper: target + far,
    lower: target - far,
    uppers: reach.map((r) => target + r),
    lowers: reach.map((r) => target - r),
    firstOutside: first < 0 ? null : first,
  });
}
