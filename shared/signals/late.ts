import type { FactOf } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { signalOf } from "./all.ts";

/**
 * Returns the state after an answer did not come in time. Level 1 reminds, level 2 raises an alert; then nothing more
 * is due.
 */
export function evolveLate(state: SessionState, fact: FactOf<"late">): SessionState {
  return {
    ...state,
    signals: state.signals.map((s) => {
      if (s.id !== fact.signal) return s;
      const escalate = signalOf(s.kind).escalate;
      const next = fact.level === 1 && escalate ? s.by.at + state.type.timing[escalate].value * 1000 : null;
      return { ...s, late: fact.level, dueAt: next };
    }),
  };
}
