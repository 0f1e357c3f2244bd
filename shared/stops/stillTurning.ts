import { type Engine, isTurning } from "../engine/life.ts";
import type { Cut, SessionState } from "../session/state.ts";

/** Returns the first engine of a cut that still turns, or turns again. */
export function stillTurning(state: SessionState, cut: Cut): Engine | undefined {
  return state.engines.find((e) => (cut.engine === null || cut.engine === e.n) && isTurning(e.life));
}
