import { endOf } from "../house/due.ts";
import type { Deferral } from "../protocol/standing.ts";
import type { Defect, SessionState } from "../session/state.ts";

/**
 * Returns true while a deferral keeps the defect from barring: to the end of its day, UTC, and while other sessions have
 * used up fewer starts than it has. A mended defect bars until its inspection although it was deferred, because somebody
 * has worked on it since.
 */
export function isDeferred(
  {
    deferred,
    startedSince,
    mended,
  }: { [Of in "deferred" | "startedSince" | "mended"]?: Defect[Of] | undefined },
  now: number,
): boolean {
  if (deferred === undefined || mended !== undefined) return false;
  const { until } = deferred;
  const left = startsLeft(deferred, startedSince);
  if (until === undefined) return left !== null && left > 0;
  return now < endOf(until) && left !== 0;
}

/** Returns the starts that are left of a deferral; null for one that counts none. */
export function startsLeft(
  { starts }: Pick<Deferral, "starts">,
  startedSince: readonly string[] = [],
): number | null {
  return starts === undefined ? null : Math.max(0, starts - startedSince.length);
}

/** Returns the open defects that bar a start of the engine or of the aircraft now. */
export function barringDefects(state: SessionState, engine: number, now: number): Defect[] {
  return ofStart(state, engine).filter((d) => !isDeferred(d, now));
}

/** Returns the moment at which a deferred defect bars the engine's start again; null without one. */
export function barsAgainAt(state: SessionState, engine: number, now: number): number | null {
  const ends = ofStart(state, engine).flatMap((d) =>
    d.deferred?.until !== undefined && isDeferred(d, now) ? [endOf(d.deferred.until)] : [],
  );
  return ends.length === 0 ? null : Math.min(...ends);
}

const ofStart = (state: SessionState, engine: number): Defect[] =>
  state.defects.filter((d) => d.barsStart && (d.engine === null || d.engine === engine));
