import { isTurning } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";

/** An engine of the order quit after the starting stage: it can only be started again there. */
export function mayGoBack(state: SessionState): boolean {
  const after = state.stage === "warmUp" || state.stage === "release";
  return after && state.engines.some((e) => state.order.includes(e.n) && !isTurning(e.life));
}
