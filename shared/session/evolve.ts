import type { SessionEvent } from "../protocol/events.ts";
import { evolveAlert } from "./evolve/alerts.ts";
import { voidClearance } from "./evolve/clearance.ts";
import { evolveCourse } from "./evolve/course.ts";
import { starterRested, withEngine, withLife } from "./evolve/engines.ts";
import { newEpoch } from "./evolve/epoch.ts";
import { evolveFigure } from "./evolve/figures.ts";
import { evolveSent } from "./evolve/sent.ts";
import { closeSignal, evolveAnswered, evolveLate } from "./evolve/signals.ts";
import { initialState } from "./initial.ts";
import type { SessionState } from "./state.ts";

/**
 * The state after one more event. Pure, total over recorded events, and the only way a state changes.
 * @param state null before the first event, which must be `planned`
 * @throws Error when the event does not follow: wrong session, a gap in the numbers, or a first event of another kind
 */
export function evolve(state: SessionState | null, event: SessionEvent): SessionState {
  const { fact } = event;
  if (state === null) {
    if (fact.type !== "planned" || event.seq !== 1)
      throw new Error("a session begins with its plan, event 1");
    return initialState(event, fact);
  }
  if (event.session !== state.id) throw new Error(`event of session ${event.session} given to ${state.id}`);
  if (event.seq !== state.seq + 1) throw new Error(`event ${event.seq} does not follow ${state.seq}`);
  return { ...apply(state, event), seq: event.seq, at: event.at };
}

function apply(state: SessionState, event: SessionEvent): SessionState {
  const { fact } = event;
  switch (fact.type) {
    case "planned":
      throw new Error("a session is planned once");
    case "sent":
      return evolveSent(state, event, fact);
    case "answered":
      return evolveAnswered(state, event, fact);
    case "late":
      return evolveLate(state, fact);
    case "clearanceVoid":
      return voidClearance(state, fact);
    case "requestWithdrawn":
      return closeSignal(
        withEngine(state, fact.engine, (e) => withLife(e, { is: "waiting" })),
        fact.signal,
        "superseded",
      );
    case "starterCooled":
      return starterRested(state, fact.engine);
    case "reading":
    case "checked":
      return evolveFigure(state, event, fact);
    case "alertRaised":
    case "alertAcknowledged":
    case "alertEnded":
      return evolveAlert(state, event, fact);
    case "refused":
      return state;
    case "restarted":
    case "clockStepped":
      return newEpoch(state);
    default:
      return evolveCourse(state, event, fact);
  }
}
