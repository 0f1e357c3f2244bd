import type { FactOf } from "../protocol/events.ts";
import type { Purpose } from "../protocol/stages.ts";
import { purposeOf, type SessionState } from "../session/state.ts";
import { adviceOn, type OrderQuestion, questionOf } from "./orderAdvice.ts";

/** Returns the advised order of some engines and what the given order costs more; null when there is no advice. */
export function adviceFor(
  purpose: Purpose,
  question: OrderQuestion,
  order: readonly number[],
): FactOf<"planned">["orderAdvice"] | null {
  if (purpose === "start") return adviceOn(question, order);
  const stopping = question.type.stopping?.order;
  return stopping ? { order: stopping.filter((n) => order.includes(n)), extra: null } : null;
}

/** Returns the same in a session, with its wind and heading. */
export function adviceIn(state: SessionState, order: readonly number[]) {
  return adviceFor(purposeOf(state), questionOf(state, order), order);
}
