import { endOf } from "../house/due.ts";
import type { Defect, SessionState } from "../session/state.ts";

/** Returns true while a deferral keeps the defect from barring: to the end of its day, UTC. */
export function isDeferred({ deferred }: { deferred?: { until: string } }, now: number): boolean {
  return deferred !== undefined && now < endOf(deferred.until);
}

/** Returns the open defects that bar a start of the engine or of the aircraft now. */
export function barringDefects(state: SessionState, engine: number, now: number): Defect[] {
  return ofStart(state, engine).filter((d) => !isDeferred(d, now));
}

/** Returns the moment at which a deferred defect bars the engine's start again; null without one. */
export function barsAgainAt(state: SessionState, engine: number, now: number): number | null {
  const ends = ofStart(state, engine).flatMap((d) =>
    d.deferred !== undefined && isDeferred(d, now) ? [endOf(d.deferred.until)] : [],
  );
  return ends.length === 0 ? null : Math.min(...ends);
}

const ofStart = (state: SessionState, engine: number): Defect[] =>
  state.defects.filter((d) => d.barsStart && (d.engine === null || d.engine === engine));
