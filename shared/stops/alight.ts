import { withEngine } from "../engine/evolve.ts";
import { isTurning, type PlainLife, plain } from "../engine/life.ts";
import type { Fire, SessionState } from "../session/state.ts";
import { enginesOf } from "./fireSeats.ts";

/**
 * Returns the state with an engine on fire. The fire wraps the engine's life, which continues under it: a fire never
 * cuts by itself.
 */
export function setAlight(state: SessionState, n: number, fire: number, since: number): SessionState {
  return withEngine(state, n, (e) => ({ ...e, life: { is: "fire", since, fire, under: plain(e.life) } }));
}

/**
 * Returns the state after a fire is out. It is taken off each engine named for it unless another fire burns there. An
 * engine that does not turn is then shut down.
 */
export function afterFire(state: SessionState, fire: Fire, at: number): SessionState {
  return takenOff(state, fire, (life) =>
    isTurning(life) ? life : { is: "shutDown", since: at, reason: "fire" },
  );
}

/** Returns the state after a fire that was none: each engine named for it goes on as if nothing had been said. */
export function neverAlight(state: SessionState, fire: Fire): SessionState {
  return takenOff(state, fire, (life) => life);
}

function takenOff(state: SessionState, fire: Fire, then: (life: PlainLife) => PlainLife): SessionState {
  return enginesOf(fire).reduce((before, n) => {
    const still = before.fires.find((f) => enginesOf(f).includes(n));
    return withEngine(before, n, (e) => {
      if (still && e.life.is === "fire") return { ...e, life: { ...e.life, fire: still.id } };
      return { ...e, life: then(plain(e.life)) };
    });
  }, state);
}
