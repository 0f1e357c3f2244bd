import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { said } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";
import { latched } from "./latch.ts";

/**
 * Returns the state after a needed post was silent too long: the system raises a hold in the name of that post, and
 * never releases it by itself.
 */
export function evolveLapse(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"presenceLapsed">,
): SessionState {
  const by = { ...said(event, null), post: fact.post, name: state.posts[fact.post]?.name ?? "" };
  const hold = { id: event.seq, by, person: null, note: `silent ${fact.post}` };
  const stopped = latched(state);
  return { ...stopped, holds: [...stopped.holds, hold] };
}
