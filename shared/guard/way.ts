import { isTurning } from "../engine/life.ts";
import { enginesBetween } from "../models/inboard.ts";
import { engineOf, type SessionState } from "../session/state.ts";

/**
 * The first engine that turns on the guard's straight way to engine `to`. Where the guard comes from is not known after
 * "guard away" or a change of guard: any other turning engine may then lie on the way.
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
