import { isTurning } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns true if an engine of the order stopped after the starting stage: it can only be started again in that stage.
 */
export function mayGoBack(state: SessionState): boolean {
  const after = state.stage === "warmUp" || state.stage === "release";
  return after && state.engines.some((e) => state.order.includes(e.n) && !isTurning(e.life));
}
