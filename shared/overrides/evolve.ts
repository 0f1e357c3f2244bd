import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the state after an event of an override: asked for by one person, completed by a second, ended by use, time
 * or a new epoch.
 */
export function evolveOverride(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"overrideAsked" | "overrideGiven" | "overrideEnded">,
): SessionState {
  const { actor } = event;
  if (fact.type === "overrideEnded") {
    return { ...state, overrides: state.overrides.filter((o) => o.id !== fact.override) };
  }
  if (actor.kind !== "person") return state;
  const who = { person: actor.id, name: actor.name, at: event.at, reason: fact.reason };
  if (fact.type === "overrideGiven") {
    return {
      ...state,
      overrides: state.overrides.map((o) => (o.id === fact.override ? { ...o, second: who } : o)),
    };
  }
  const { condition, engine, seen } = fact;
  const first = { ...who, device: actor.device };
  return {
    ...state,
    overrides: [
      ...state.overrides,
      {
        id: event.seq,
        condition,
        engine,
        epoch: state.epoch,
        first,
        second: null,
        ...(seen ? { seen } : {}),
      },
    ],
  };
}
