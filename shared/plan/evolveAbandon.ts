import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the state with the request to abandon that waits for a second person. */
export function evolveAbandonAsked(
  state: SessionState,
  { actor, at }: SessionEvent,
  { reason }: FactOf<"abandonAsked">,
): SessionState {
  if (actor.kind !== "person") return state;
  const { id: person, device, name } = actor;
  return { ...state, abandon: { at, epoch: state.epoch, person, device, name, reason } };
}
