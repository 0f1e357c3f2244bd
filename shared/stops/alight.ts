import { withEngine } from "../engine/evolve.ts";
import { isTurning, plain } from "../engine/life.ts";
import type { Fire, SessionState } from "../session/state.ts";

/**
 * Returns the state with an engine on fire. The fire wraps the engine's life, which continues under it: a fire never
 * cuts by itself.
 */
export function setAlight(state: SessionState, n: number, fire: number, since: number): SessionState {
  return withEngine(state, n, (e) => ({ ...e, life: { is: "fire", since, fire, under: plain(e.life) } }));
}

/**
 * Returns the state after a fire is out. It is taken off its engine unless another fire burns there. An engine that
 * does not turn is then shut down.
 */
export function afterFire(state: SessionState, fire: Fire, at: number): SessionState {
  if (fire.engine === null) return state;
  const stillBurning = state.fires.find((f) => f.engine === fire.engine);
  return withEngine(state, fire.engine, (e) => {
    const life = plain(e.life);
    if (stillBurning && e.life.is === "fire") return { ...e, life: { ...e.life, fire: stillBurning.id } };
    return { ...e, life: isTurning(life) ? life : { is: "shutDown", since: at, reason: "fire" } };
  });
}
