/** One thing watched: how long, and whether it failed then or was only watched so far. */
export interface Lifetime {
  time: number;
  failed: boolean;
}

/** Survival just after a time at which something failed. */
export interface SurvivalStep {
  time: number;
  /** Still watched just before. */
  atRisk: number;
  failures: number;
  survival: number;
  /** Greenwood's standard error; null where nothing is left to survive. */
  se: number | null;
}

/**
 * Product-limit estimate (Kaplan and Meier 1958; NIST e-Handbook 8.2.1.5): S = prod (1 - d / n) over failure times;
 * Greenwood se = S sqrt(sum d / (n (n - d))). One censored at a failure's time was still at risk then.
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
