import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";

type DefectAction = Extract<Action, { type: "writeDefect" | "closeDefect" }>;

/**
 * Decides a defect. One that is closed stays open as mended where another person must inspect it. One on an engine that the type
 * does not have would bar nothing, so it is refused.
 */
export function decideDefect(state: SessionState, action: DefectAction): Verdict {
  if (action.type === "closeDefect") {
    const defect = state.defects.find((d) => d.id === action.defect);
    if (!defect) return refuse("nothingOpen");
    const waits = state.inspectsDefects === true || defect.mended !== undefined;
    return accept({ ...action, type: waits ? "defectMended" : "defectClosed" });
  }
  if (action.engine !== undefined && !engineOf(state, action.engine)) {
    return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
  }
  return accept({ ...action, type: "defectWritten" });
}
