import type { SessionState } from "../session/state.ts";
import { type Engine, isTurning, plain } from "./life.ts";

/** True while an engine turns whose arc is reported not clear. */
export function isArcUnsafe(state: SessionState, engine: Engine): boolean {
  return isTurning(engine.life) && state.arcs[engine.n]?.clear === false;
}

/** True for an engine between starter and stable whose clearance somebody took back after it was used. */
export function isRevoked(engine: Engine): boolean {
  const life = plain(engine.life);
  return (life.is === "cranking" || life.is === "caught" || life.is === "running") && life.revoked === true;
}
