import { withLife } from "../engine/evolve.ts";
import type { Engine } from "../engine/life.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the state as the aircraft comes in: the engines of the order turn, and nobody has yet seen the other
 * propellers still.
 */
export function arrived(state: SessionState, { at }: SessionEvent): SessionState {
  return {
    ...state,
    engines: state.engines.map((e): Engine => {
      if (state.order.includes(e.n)) return withLife(e, { is: "stable", since: at });
      return { ...e, unseen: { stoppedBy: null } };
    }),
  };
}

/** Returns the state in which the cockpit still owes the reason why an engine was stopped warm. */
export function evolveCoolDownCut(state: SessionState, { engine }: FactOf<"coolDownCut">): SessionState {
  const { returning } = state;
  if (!returning || returning.remarksDue.includes(engine)) return state;
  return { ...state, returning: { ...returning, remarksDue: [...returning.remarksDue, engine] } };
}

/** Returns the state after something was written of an engine: it is the reason that was owed. */
export function remarked(state: SessionState, engine: number | undefined): SessionState {
  const { returning } = state;
  if (!returning || engine === undefined || !returning.remarksDue.includes(engine)) return state;
  return {
    ...state,
    returning: { ...returning, remarksDue: returning.remarksDue.filter((n) => n !== engine) },
  };
}
