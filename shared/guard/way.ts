import { isTurning } from "../engine/life.ts";
import { enginesBetween } from "../models/inboard.ts";
import { engineOf, type SessionState } from "../session/state.ts";

/**
 * Returns the first turning engine on the guard's straight way to engine `to`. After "guard away" or a change of guard
 * the start of the way is unknown, so any other turning engine may lie on it.
 */
export function turningOnTheWay(state: SessionState, from: number | null, to: number): number | undefined {
  const passed =
    from === null
      ? state.engines.map((e) => e.n).filter((n) => n !== to)
      : enginesBetween(state.type, from, to);
  return passed.find((n) => {
    const engine = engineOf(state, n);
    return engine !== undefined && isTurning(engine.life);
  });
}
