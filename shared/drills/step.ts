import { isTurning } from "../engine/life.ts";
import type { DrillRun, SessionState } from "../session/state.ts";
import type { DrillStep } from "../types/drill.ts";

/** Returns false for a step beside an engine while that engine turns. */
export function mayAsk(state: SessionState, { engine }: DrillRun, step: DrillStep): boolean {
  if (step.atStandstill !== true) return true;
  return !state.engines.some((e) => (engine === null || e.n === engine) && isTurning(e.life));
}

/** Returns true for a step that writes a defect, until a defect written since the drill began is open. */
export function lacksDefect(state: SessionState, run: DrillRun, step: DrillStep): boolean {
  if (step.writesDefect !== true) return false;
  return !state.defects.some(
    (d) => d.by.at >= run.at && (run.engine === null || d.engine === run.engine || d.engine === null),
  );
}
