import type { Action } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

/**
 * Decides a device's report of the signals it shows. Only open signals that are addressed to its post and not reported
 * yet are recorded.
 */
export function decideDelivered(
  state: SessionState,
  action: Extract<Action, { type: "delivered" }>,
  context: Context,
): Verdict {
  const post = context.post;
  if (!post) return refuse("wrongPost");
  const fresh = state.signals.filter(
    (s) => action.signals.includes(s.id) && s.to.includes(post) && s.delivered[post] === undefined,
  );
  if (fresh.length === 0) return refuse("alreadyDone");
  return accept({ type: "delivered", signals: fresh.map((s) => s.id), post });
}

/** Returns the state after a device showed a signal. That does not mean that a person has received it. */
export function evolveDelivered(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"delivered">,
): SessionState {
  return {
    ...state,
    signals: state.signals.map((s) =>
      fact.signals.includes(s.id) ? { ...s, delivered: { ...s.delivered, [fact.post]: event.at } } : s,
    ),
  };
}
