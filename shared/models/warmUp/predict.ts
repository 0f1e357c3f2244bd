import type { WarmUpFit } from "./fit.ts";

/** Seconds from the last reading, with one standard error. */
export interface TimeLeft {
  seconds: number;
  plusMinus: number;
}

/**
 * Returns the time left until a fitted warm-up reaches `gate`: t = ln(rise/(steady − gate))/rate after the origin, with
 * the variance gᵀΣg, g being the gradient of t by (steady, rise, rate). 0 seconds when the fit is there already.
 *
 * Null when the data do not determine it: the warm-up may level off below the gate, or the standard error is above both
 * half of the time left and the mean time between readings.
 */
export function timeLeft(fit: WarmUpFit, gate: number): TimeLeft | null {
  const toGo = fit.steady - gate;
  if (!(toGo > 0 && fit.lowestSteady > gate)) return null;
  const t = Math.log(fit.rise / toGo) / fit.rate;
  const gradient = [-1 / (fit.rate * toGo), 1 / (fit.rate * fit.rise), -t / fit.rate];
  let variance = 0;
  for (const [i, gi] of gradient.entries()) {
    for (const [j, gj] of gradient.entries()) variance += gi * gj * (fit.covariance[i]?.[j] ?? 0);
  }
  const plusMinus = Math.sqrt(Math.max(0, variance));
  const seconds = Math.max(0, fit.origin + t - fit.last);
  if (!(plusMinus <= Math.max(seconds / 2, fit.interval))) return null;
  return { seconds, plusMinus };
}
