import type { Defect, SessionState } from "../session/state.ts";

/** Returns the open defects that bar a start of the engine or of the aircraft. */
export function barringDefects(state: SessionState, engine: number): Defect[] {
  return state.defects.filter((d) => d.barsStart && (d.engine === null || d.engine === engine));
}
