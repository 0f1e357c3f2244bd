import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { signalOf } from "./all.ts";
import { openSignal } from "./open.ts";

/** Returns the state after a signal was sent: it is open, and its meaning has taken effect. */
export function evolveSent(before: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  return signalOf(fact.kind).evolve(openSignal(before, event, fact), event, fact);
}
