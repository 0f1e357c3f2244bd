import type { Engine, PlainLife } from "../../../shared/engine/life.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { Step } from "../../../shared/session/step.ts";
import type { Move } from "../moves.ts";

/** One step of the core, with the state before it and the server's time at which it was taken. */
export interface Transition {
  before: SessionState;
  move: Move;
  step: Step;
  now: number;
}

/**
 * A property that no reachable step may break. It is written on the state alone and never uses the core's own
 * judgement.
 */
export interface Invariant {
  /** Its number in the catalogue of 24, or S and a number for one of the search's own. */
  id: string;
  text: string;
  holds(t: Transition): boolean;
}

/** Returns an engine's life without any fire. */
export function lifeOf(engine: Engine): PlainLife {
  return engine.life.is === "fire" ? engine.life.under : engine.life;
}

export function hasStop(state: SessionState): boolean {
  return state.holds.length > 0 || state.cuts.length > 0 || state.fires.length > 0;
}

/** Returns the engine whose clearance is valid after the step but was not there before. */
export function granted({ before, step }: Transition): Engine | undefined {
  return step.state.engines.find((e, i) => {
    const life = lifeOf(e);
    if (life.is !== "clear") return false;
    const old = before.engines[i];
    const was = old && lifeOf(old);
    return was?.is !== "clear" || was.clearance.id !== life.clearance.id;
  });
}

/** Returns the event of the person's own act in the step. The event of a clock found set back comes before it. */
export function own(step: Step): SessionEvent | undefined {
  const { events } = step;
  for (let i = 0; i < events.length; i += 1) if (events[i]?.actor.kind === "person") return events[i];
  return undefined;
}
