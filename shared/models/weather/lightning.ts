/** One flash: its time (ms) and distance, statute miles; null when nobody could tell the distance. */
export interface Flash {
  at: number;
  miles: number | null;
}

/** A site's rule. No distances are standard for all sites, so they are data with a source. */
export interface LightningRule {
  /** Work stops after a flash at or within this distance. */
  stopWithinMiles: number;
  /** Work may resume this long, ms, after the last such flash. */
  resumeAfter: number;
}

export type LightningState =
  | { state: "clear" }
  /** `nearestMiles` is null when a flash of unknown distance counts. */
  | { state: "stop"; lastAt: number; resumeAt: number; nearestMiles: number | null };

/**
 * Returns miles from the seconds between flash and thunder: sound travels a statute mile in about five seconds (US NWS
 * teaching rule).
 */
export function flashToBangMiles(seconds: number): number {
  return seconds / 5;
}

/**
 * Returns the state of a lightning rule at `now`, ms. A flash of unknown distance counts as within the distance: when
 * in doubt, hold. Flashes after `now` are ignored. At exactly `resumeAt` the wait is over.
 */
export function lightningState(flashes: readonly Flash[], now: number, rule: LightningRule): LightningState {
  const counting = flashes.filter(
    (f) =>
      f.at <= now && now < f.at + rule.resumeAfter && !(f.miles !== null && f.miles > rule.stopWithinMiles),
  );
  if (counting.length === 0) return { state: "clear" };
  const lastAt = Math.max(...counting.map((f) => f.at));
  const miles = counting.map((f) => f.miles).filter((m) => m !== null);
  const nearestMiles = miles.length < counting.length ? null : Math.min(...miles);
  return { state: "stop", lastAt, resumeAt: lastAt + rule.resumeAfter, nearestMiles };
}

/** A step of a staged plan, e.g. 5 miles: stop fuelling. */
export interface LightningStage<A extends string> {
  withinMiles: number;
  action: A;
}

/**
 * Returns every action that a flash at this distance calls for, the nearest stage first. If the distance is unknown:
 * all of them.
 */
export function stagedActions<A extends string>(
  miles: number | null,
  stages: readonly LightningStage<A>[],
): A[] {
  return [...stages]
    .sort((a, b) => a.withinMiles - b.withinMiles)
    .filter((s) => miles === null || miles <= s.withinMiles)
    .map((s) => s.action);
}
