import { isTurning } from "../engine/life.ts";
import { wrongState } from "../engine/ofEngine.ts";
import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";

/**
 * Blades are counted only by hands the crew let near that very propeller, and not once it has turned under them. The
 * leave said that ignition is off, and that is no longer known. Resistance felt is always taken.
 */
export function decideBlades(state: SessionState, action: Extract<Action, { type: "countBlades" }>): Verdict {
  const engine = engineOf(state, action.engine);
  if (!engine)
    return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
  if (action.resistance) return accept({ ...action, type: "bladesCounted" });
  const { handling } = state;
  if (handling?.engine !== action.engine)
    return refuse("noAuthority", { posts: ["cockpit"], found: "handlePropeller", engine: action.engine });
  if (isTurning(engine.life)) return wrongState(engine);
  if (handling.turned || engine.unseen) return refuse("turnedUnderHands", { engine: action.engine });
  return accept({ ...action, type: "bladesCounted" });
}
