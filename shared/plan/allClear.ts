import { stopOpen } from "../session/state.ts";
import { accept, refuse } from "../session/verdict.ts";
import { ANNEX, toOnly } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";

/**
 * The report that everybody and everything is clear of the aircraft. The aircraft may move once the cockpit has
 * answered.
 */
export const allClear = signal({
  from: ["supervisor"],
  stages: ["warmUp", "release"],
  standard: { figure: "allClear", text: `${ANNEX} 5.1 item 15, affirmative / all clear` },
  remind: "service",
  decide: (state, send) => (stopOpen(state) ? refuse("stopOpen") : accept({ ...send, type: "sent" })),
  // It takes effect with the cockpit's answer.
  evolve: (state) => state,
  answer: answers({
    due: toOnly("cockpit"),
    allowed: ["received", "unable"],
    evolve: (state, event, fact) => (fact.answer === "received" ? { ...state, allClearAt: event.at } : state),
  }),
});
