import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { SessionState, Signal } from "../../../shared/session/state.ts";
import { type Fate, fateOf, fateOfOld } from "../../../shared/signals/fate.ts";
import { isStop } from "../../../shared/signals/isStop.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import type { Outgoing } from "../../net/outgoing.ts";
import type { SentRow } from "../../ui/Sent.tsx";
import type { Words } from "../../words/catalogue.ts";
import { answerKey } from "./askViews.ts";
import { readAnew } from "./figures.ts";

/** Returns an action in words, for its sender. */
export function sayAction(state: SessionState, action: Action, units: UnitChoice, words: Words): string {
  const { say, text } = words;
  const { actions } = text;
  const small = (post: Post) => say.post(post).toLowerCase();
  switch (action.type) {
    case "send": {
      const figure = action.volts ?? action.pressure;
      const signalWords = say.signal(action.kind, action.engine ?? null);
      const whole = figure ? `${signalWords}, ${writtenBoth(figure, units)}` : signalWords;
      return action.seenFrom ? actions.seenFrom(whole, small(action.seenFrom)) : whole;
    }
    case "answer": {
      const signal = signalOf(state, action.signal);
      const to = signal ? `${say.signal(signal.kind, signal.engine)}: ` : "";
      const engine = action.engine === undefined ? "" : ` ${action.engine}`;
      return `${to}${say.answer(action.answer).toLowerCase()}${engine}`;
    }
    case "reading": {
      const gauge = state.type.gauges.find((g) => g.id === action.gauge)?.name ?? action.gauge;
      const of = action.engine === undefined ? gauge : text.entry.gaugeOf(gauge, action.engine);
      return `${of}: ${writtenBoth(action.reading, units)}`;
    }
    case "recordRunUp":
      return `${actions.runUp(action.engine, say.runUpItem(action.item))}: ${writtenBoth(action.reading, units)}`;
    case "recordFlash":
      return flashWords(action, text.air);
    case "recordCheck": {
      const check = state.type.checks.find((c) => c.id === action.check)?.words ?? action.check;
      if (action.reading) return `${check}: ${writtenBoth(action.reading, units)}`;
      return `${check}: ${action.good ? actions.good : actions.notGood}`;
    }
    case "giveVoltTrace":
      return actions.trace(action.samples.length);
    case "claimPost":
    case "acceptPost":
      return actions.takePost(small(action.post));
    case "leavePost":
      return actions.leavePost(small(action.post));
    case "offerPost":
      return actions.handOver(small(action.post));
    case "vacatePost":
      return actions.vacate(small(action.post));
    case "confirmBrief":
      return actions.briefed;
    case "amendPlan":
      return action.order ? actions.order(action.order.join("-")) : actions.planChanged;
    case "advance":
      return actions.advance(say.stage(action.to).toLowerCase());
    case "abandon":
      return actions.abandon;
    case "present":
      return actions.present;
    case "delivered":
      return actions.shown;
    case "shelveAlert":
      return actions.shelved;
    case "override":
      return actions.setAside(action.engine, say.conditionName(action.condition).toLowerCase());
    case "countBlades":
      return actions.blades(action.engine, action.blades, action.resistance);
    case "recordWeather":
      return action.metar ?? actions.wind(action.windKt);
    case "writeDefect":
      return actions.defect(action.words);
    case "closeDefect":
      return actions.defectClosed;
    case "startDrill":
      return actions.drill(state.type.drills.find((d) => d.id === action.drill)?.title ?? action.drill);
    case "drillStep":
      return actions.drillStep(action.step + 1, action.done);
    case "endDrill":
      return actions.drillEnded;
    case "acknowledgeAlert": {
      const alert = state.alerts.find((a) => a.id === action.alert);
      return alert ? actions.alertSeen(say.alert(alert.kind, alert.engine)) : actions.seen;
    }
  }
}

const SHOWN = 3;

/** Returns the last few messages of this person, with their status and the answers to them. */
export function sentRows(
  state: SessionState,
  sent: readonly Outgoing[],
  units: UnitChoice,
  words: Words,
  now: number,
): SentRow[] {
  // Delivery reports come from the device, not from this person.
  const own = sent.filter((s) => s.action.type !== "delivered");
  const asking = own.filter((s) => s.status.is === "lapsed" || s.status.is === "sending");
  const rest = own.filter((s) => !asking.includes(s));
  return [...asking, ...rest].slice(0, Math.max(SHOWN, asking.length)).map((item) => ({
    id: item.id,
    words: sayAction(state, item.action, units, words),
    ...became(state, item, now, words),
    status: statusWords(item, units, state.type, words),
    answers: answersTo(state, item, words),
    // An override needs its sender's PIN, and the permit for the one entered is used up.
    mayGoAnew: item.action.type !== "override",
    correct: item === own[0] ? correction(state, item, now, words) : null,
  }));
}

/** Time for which the last figure can be corrected from the list, milliseconds. Later it is read again as any other. */
const CORRECTED_MS = 60_000;

/** Returns the key that reads a recorded figure once more. Both figures stay on the record. */
function correction(state: SessionState, { id, action, at, status }: Outgoing, now: number, words: Words) {
  const again = readAnew(action);
  if (again === null || status.is !== "recorded" || now - at > CORRECTED_MS) return null;
  return answerKey(state, again, words.text.sent.correct, now, words, `correct/${id}`);
}

function statusWords(item: Outgoing, units: UnitChoice, type: AircraftType, { say, text }: Words): string {
  const { ask, sent } = text;
  const { status } = item;
  switch (status.is) {
    case "sending":
      return isStop(item.action) ? sent.stopSending : ask.sending;
    case "recorded":
      return sent.recorded(status.seq);
    case "refused":
      return say.refusal(status.refusal, units, type);
    case "lapsed":
      return status.tries === 0 ? sent.notSent : sent.notAnswered;
    case "failed":
      return text.net.wire[status.error];
  }
}

/** Returns the look of a row, and why what was said no longer counts. */
function became(
  state: SessionState,
  { action, status }: Outgoing,
  now: number,
  { text: { sent } }: Words,
): Pick<SentRow, "is" | "end"> {
  if (status.is !== "recorded") return { is: status.is, end: null };
  const fate = fateOfAction(state, action, status.seq, now);
  if (fate.is === "counts") return { is: "recorded", end: null };
  const engine = action.type === "send" ? (action.engine ?? 0) : 0;
  return { is: fate.is, end: fate.why === "used" ? sent.used(engine) : sent.ends[fate.why] };
}

/** An answer that permits something counts as long as the signal that it answers. */
function fateOfAction(state: SessionState, action: Action, seq: number, now: number): Fate {
  if (action.type === "send") {
    const signal = signalOf(state, seq);
    if (signal) return fateOf(state, signal, now);
    return fateOfOld(state, { id: seq, kind: action.kind, engine: action.engine ?? null });
  }
  const permits = action.type === "answer" && action.answer !== "received" && action.answer !== "unable";
  const signal = permits ? signalOf(state, action.signal) : undefined;
  return signal ? fateOf(state, signal, now) : { is: "counts" };
}

function answersTo(state: SessionState, { status }: Outgoing, words: Words): SentRow["answers"] {
  if (status.is !== "recorded") return [];
  const signal = signalOf(state, status.seq);
  return signal ? answerRows(signal, words) : [];
}

const signalOf = (state: SessionState, id: number): Signal | undefined =>
  [...state.signals, ...state.ended].find((s) => s.id === id);

/** Returns one line for each post whose answer is due: the answer, or that there is none. */
function answerRows(signal: Signal, { say, text: { sent } }: Words): SentRow["answers"] {
  return signal.due.map((post) => {
    const given = signal.answers[post];
    if (!given) return { words: `${say.post(post)}: ${sent.noAnswer}`, bad: false };
    const word =
      given.wrong === undefined ? say.answer(given.answer).toLowerCase() : sent.readBackWrong(given.wrong);
    const bad = given.wrong !== undefined || given.answer === "unable";
    return { words: `${say.post(post)}: ${word}, ${timeOfDay(given.at)}`, bad };
  });
}

/** Returns a flash in words, with its distance when reported. */
function flashWords(
  { thunderAfterS, miles }: Extract<Action, { type: "recordFlash" }>,
  air: Words["text"]["air"],
): string {
  if (thunderAfterS !== undefined) return air.flashThunder(thunderAfterS);
  return miles === undefined ? air.flash : air.flashFar(miles);
}
