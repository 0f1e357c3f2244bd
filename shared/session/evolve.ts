import { know } from "../aircraft/know.ts";
import { evolveAlert } from "../alerts/evolve.ts";
import { cardKept, evolveCard } from "../card/evolve.ts";
import { evolveDrill } from "../drills/evolve.ts";
import { voidClearance } from "../engine/clearance.ts";
import { starterRested, withEngine, withLife } from "../engine/evolve.ts";
import { evolveEquipment } from "../equipment/evolve.ts";
import { knowField } from "../field/know.ts";
import { leavesKept } from "../leaves/authority.ts";
import { evolveOverride } from "../overrides/evolve.ts";
import { evolveAbandonAsked } from "../plan/evolveAbandon.ts";
import { alsoSupervised } from "../posts/alsoSupervised.ts";
import { evolveVoltTrace } from "../power/evolveTrace.ts";
import type { Fact, SessionEvent } from "../protocol/events.ts";
import { evolveFigure } from "../readings/evolve.ts";
import { evolveInstruments } from "../readings/instruments.ts";
import { evolveAnswered } from "../signals/answered.ts";
import { closeSignal } from "../signals/close.ts";
import { evolveDelivered } from "../signals/delivered.ts";
import { evolveLate } from "../signals/late.ts";
import { evolveSent } from "../signals/sent.ts";
import { evolveCoolDownCut } from "../stopping/evolve.ts";
import { evolveFireOutLapsed } from "../stops/fireOutWord.ts";
import { evolveLapse, evolvePresent, evolveSilence } from "../stops/lapse.ts";
import { evolveStation } from "../weather/evolveStation.ts";
import { evolveCourse } from "./course.ts";
import { newEpoch } from "./epoch.ts";
import { initialState } from "./initial.ts";
import { evolveReport } from "./reports.ts";
import { type SessionState, startLive } from "./state.ts";

/**
 * Returns the state after one more event. Pure, defined for every recorded event, and the only way a state changes.
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
  const applied = cardKept(state, apply(state, event));
  const posts = touched(applied.posts, event);
  return live(leavesKept({ ...applied, posts, seq: event.seq, at: event.at }));
}

/** Records a touch: any action of a post's holder counts as presence, except what the device sends by itself. */
function touched(posts: SessionState["posts"], { actor, fact, at }: SessionEvent): SessionState["posts"] {
  if (actor.kind !== "person" || actor.post === null || saidByDevice(fact)) return posts;
  const holder = posts[actor.post];
  if (holder?.id !== actor.id || holder.touchedAt === at) return posts;
  return { ...posts, [actor.post]: { ...holder, touchedAt: at } };
}

function saidByDevice(fact: Fact): boolean {
  return fact.type === "delivered" || (fact.type === "refused" && fact.action.type === "delivered");
}

function live(state: SessionState): SessionState {
  if (!startLive(state)) return state.liveSince === null ? state : { ...state, liveSince: null };
  return state.liveSince === null ? { ...state, liveSince: state.at } : state;
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
      return voidClearance(state, event, fact);
    case "requestWithdrawn":
      return closeSignal(
        withEngine(state, fact.engine, (e) => withLife(e, { is: "waiting" })),
        fact.signal,
        "superseded",
      );
    case "starterCooled":
      return starterRested(state, fact.engine);
    case "equipmentShown":
      return evolveEquipment(state, event, fact);
    case "voltTraceGiven":
      return evolveVoltTrace(state, event, fact);
    case "reading":
    case "checked":
    case "runUpRead":
      return evolveFigure(state, event, fact);
    case "cardAnswered":
    case "cardRead":
      return evolveCard(state, event, fact);
    case "alertRaised":
    case "alertAcknowledged":
    case "alertEnded":
    case "alertReset":
    case "alertShelved":
    case "alertUnshelved":
    case "alertUnsuppressed":
    case "alertAgain":
    case "alertWidened":
      return evolveAlert(state, event, fact);
    case "abandonAsked":
      return evolveAbandonAsked(state, event, fact);
    case "overrideAsked":
    case "overrideGiven":
    case "overrideEnded":
      return evolveOverride(state, event, fact);
    case "drillStarted":
    case "drillStepped":
    case "drillEnded":
      return evolveDrill(state, event, fact);
    case "fireOutLapsed":
      return evolveFireOutLapsed(state, fact);
    case "presenceLapsed":
      return evolveLapse(state, event, fact);
    case "silenceHeld":
      return evolveSilence(state, event, fact);
    case "present":
      return evolvePresent(state, fact);
    case "bladesCounted":
    case "weatherRead":
    case "defectWritten":
    case "defectClosed":
    case "defectMended":
    case "exceeded":
    case "flashSeen":
      return evolveReport(state, event, fact);
    case "coolDownCut":
      return evolveCoolDownCut(state, fact);
    case "instrumentsRead":
      return evolveInstruments(state, event, fact);
    case "stationRead":
      return evolveStation(state, event, fact);
    case "rehearsed":
      if (!state.rehearsal) throw new Error("only a rehearsal says what was rehearsed");
      return fact.said.is === "takenBack" ? { ...state, wentBackTo: fact.said.to } : state;
    case "delivered":
      return evolveDelivered(state, event, fact);
    case "refused":
      return state;
    case "fieldKnown":
      return knowField(state, fact.field);
    case "supervisesAlso":
      return alsoSupervised(state, fact.aircraft);
    case "aircraftKnown":
      return know(state, fact.standing, event.seq);
    case "restarted":
    case "clockStepped":
      return newEpoch(state);
    default:
      return evolveCourse(state, event, fact);
  }
}
