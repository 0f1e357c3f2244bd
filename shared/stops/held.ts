import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { attributionOf } from "../session/attribute.ts";
import type { Hold, SessionState } from "../session/state.ts";

/** Returns the state with one more hold of this event's sender. */
export function held(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"sent">,
  note: string | null,
  slip: Pick<Hold, "slip"> = {},
): SessionState {
  const by = attributionOf(event, fact.seenFrom ?? null);
  const person = event.actor.kind === "person" ? event.actor.id : null;
  return { ...state, holds: [...state.holds, { id: event.seq, by, person, note, ...slip }] };
}
