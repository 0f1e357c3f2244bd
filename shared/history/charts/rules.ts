/**
 * Settings of the charts, in standard deviations of the baseline. They are those of the standard charts, widened for
 * what a baseline of few starts leaves unknown: its mean has an error of its own, which no later start averages out.
 */

/** Starts of a baseline. With fewer no limits are drawn: common practice is 20 to 30 (from memory, Montgomery). */
export const BASELINE = 20;

/** Weight of the newest start, and width of known limits: in control one signal in 500 (Lucas and Saccucci 1990). */
export const EWMA = { lambda: 0.2, width: 2.962 } as const;

/** Slack and decision interval of known parameters: in control one signal in 465 (NIST e-Handbook 6.3.2.3). */
export const CUSUM = { slack: 0.5, decision: 5 } as const;

/** Returns the width of the EWMA's limits for a baseline of `n` starts: its variance and that of the baseline's mean. */
export function ewmaWidth(n: number): number {
  const { lambda, width } = EWMA;
  return width * Math.sqrt(1 + (2 - lambda) / (lambda * n));
}

/** Returns the CUSUM's slack for a baseline of `n` starts: larger by the standard error of its mean. */
export function cusumSlack(n: number): number {
  return CUSUM.slack + 1 / Math.sqrt(n);
}

/** Returns the correlation of neighbours beyond which limits are not to be trusted: 2 / sqrt(n) (NIST 1.3.3.1). */
export function mostAutocorrelation(n: number): number {
  return 2 / Math.sqrt(n);
}
