import type { Action } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

/** A device says which signals it shows. Only those open, addressed to its post and not yet said are recorded. */
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

/** A device shows it. No person has it by that. */
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
