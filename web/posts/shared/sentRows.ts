import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { SessionState, Signal } from "../../../shared/session/state.ts";
import { type Fate, fateOf, fateOfOld } from "../../../shared/signals/fate.ts";
import { isStop } from "../../../shared/signals/isStop.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { outcomesOf } from "../../../shared/words/outcomes.ts";
import type { Outgoing } from "../../net/outgoing.ts";
import type { SentRow } from "../../ui/Sent.tsx";
import type { Words } from "../../words/catalogue.ts";
import { saidWords } from "../../words/said.ts";
import { answerKey } from "./askViews.ts";
import { readAnew } from "./figures.ts";
import { sayAction } from "./sayAction.ts";

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
  const again = readAnew(state, action);
  if (again === null || status.is !== "recorded" || now - at > CORRECTED_MS) return null;
  return answerKey(state, again, saidWords(words.say.language).sent.correct, `correct/${id}`);
}

function statusWords(item: Outgoing, units: UnitChoice, type: AircraftType, { say, text }: Words): string {
  const { ask } = text;
  const { sent } = saidWords(say.language);
  const { status } = item;
  switch (status.is) {
    case "sending":
      return isStop(item.action) ? sent.stopSending : ask.sending;
    case "recorded":
      return sent.recorded(status.seq);
    case "refused":
      return outcomesOf(say).refusal(status.refusal, units, type);
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
  { say }: Words,
): Pick<SentRow, "is" | "end"> {
  if (status.is !== "recorded") return { is: status.is, end: null };
  const { sent } = saidWords(say.language);
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
function answerRows(signal: Signal, { say }: Words): SentRow["answers"] {
  const { sent } = saidWords(say.language);
  return signal.due.map((post) => {
    const given = signal.answers[post];
    if (!given) return { words: `${say.post(post)}: ${sent.noAnswer}`, bad: false };
    const word =
      given.wrong === undefined ? say.answer(given.answer).toLowerCase() : sent.readBackWrong(given.wrong);
    const bad = given.wrong !== undefined || given.answer === "unable";
    return { words: `${say.post(post)}: ${word}, ${timeOfDay(given.at)}`, bad };
  });
}
