import { isTurning } from "../engine/life.ts";
import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";
import { itemGauge } from "./verdict.ts";

/** Decides one figure of a run-up: the engine must turn, and the figure must be on the scale of its gauge. */
export function decideRunUp(state: SessionState, action: Extract<Action, { type: "recordRunUp" }>): Verdict {
  const engine = engineOf(state, action.engine);
  if (!engine)
    return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
  const gauge = itemGauge(state.type, action.item);
  if (!gauge) return refuse("noSuchGauge", { found: action.item });
  if (!isTurning(engine.life)) {
    return refuse("wrongEngineState", { engine: engine.n, found: engine.life.is });
  }
  if (action.reading.unit !== gauge.unit) return refuse("wrongUnit", { found: gauge.unit });
  const { from, to } = gauge.scale;
  if (action.reading.value < from || action.reading.value > to) {
    return refuse("outOfRange", { found: `${from} to ${to} ${gauge.unit}` });
  }
  return accept({ ...action, type: "runUpRead" });
}
