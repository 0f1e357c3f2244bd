import { acknowledgeFor } from "../alerts/evolve.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { signalOf } from "./all.ts";
import { closeSignal } from "./close.ts";

/**
 * Returns the state after a post answered a signal. The signal closes once every post whose answer is due has given one
 * that closes it.
 */
export function evolveAnswered(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"answered">,
): SessionState {
  const signal = state.signals.find((s) => s.id === fact.signal);
  const actor = event.actor;
  if (!signal || actor.kind !== "person" || actor.post === null) return state;
  const post = actor.post;
  const wrong = fact.right === false && fact.engine !== undefined ? { wrong: fact.engine } : {};
  const answer = { answer: fact.answer, at: event.at, name: actor.name, channel: fact.channel, ...wrong };
  const answered = { ...signal, answers: { ...signal.answers, [post]: answer } };
  let next: SessionState = {
    ...state,
    signals: state.signals.map((s) => (s.id === signal.id ? answered : s)),
  };
  if (fact.right === false) return next;

  const { class: is, answer: rules } = signalOf(signal.kind);
  const stop = is === "stop";
  if (stop) next = acknowledgeFor(next, signal.id, post);
  next = rules.evolve(next, event, fact, answered);
  const complete = answered.due.every((p) => {
    const given = answered.answers[p];
    return given !== undefined && rules.closes(p, given.answer);
  });
  if (fact.answer === "unable" && !stop) return closeSignal(next, signal.id, "unable");
  return complete ? closeSignal(next, signal.id, "answered") : next;
}
