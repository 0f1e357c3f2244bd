/** One item that was watched: for how long, and whether it failed at the end or had not failed yet. */
export interface Lifetime {
  time: number;
  failed: boolean;
}

/** Survival just after a time at which something failed. */
export interface SurvivalStep {
  time: number;
  /** Items still watched just before. */
  atRisk: number;
  failures: number;
  survival: number;
  /** Greenwood's standard error; null where no item is left. */
  se: number | null;
}

/**
 * Returns the product-limit estimate (Kaplan and Meier 1958; NIST e-Handbook 8.2.1.5): S = prod (1 - d / n) over
 * failure times; Greenwood se = S sqrt(sum d / (n (n - d))). An item censored at the time of a failure was still at
 * risk then.
 */
export function kaplanMeier(lifetimes: readonly Lifetime[]): SurvivalStep[] {
  const times = [...new Set(lifetimes.filter((l) => l.failed).map((l) => l.time))].sort((a, b) => a - b);
  let survival = 1;
  let greenwood = 0;
  return times.map((time) => {
    const atRisk = lifetimes.filter((l) => l.time >= time).length;
    const failures = lifetimes.filter((l) => l.failed && l.time === time).length;
    survival *= 1 - failures / atRisk;
    greenwood += failures / (atRisk * (atRisk - failures));
    const se = atRisk > failures ? survival * Math.sqrt(greenwood) : null;
    return { time, atRisk, failures, survival, se };
  });
}
