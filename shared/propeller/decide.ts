import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";

/** Blades are counted only by hands the crew let near that very propeller. Resistance felt is always taken. */
export function decideBlades(state: SessionState, action: Extract<Action, { type: "countBlades" }>): Verdict {
  const engine = engineOf(state, action.engine);
  if (!engine)
    return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
  if (state.handling?.engine !== action.engine && !action.resistance) {
    return refuse("noAuthority", { posts: ["cockpit"], found: "handlePropeller", engine: action.engine });
  }
  return accept({ ...action, type: "bladesCounted" });
}
