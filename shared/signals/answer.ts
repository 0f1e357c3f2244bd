import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { signalOf } from "./all.ts";
import type { AnswerAction } from "./definition.ts";

/**
 * Decides an answer: only an addressed post may answer, only while the signal is open, and only with an answer that its
 * kind allows.
 */
export function decideAnswer(state: SessionState, action: AnswerAction, context: Context): Verdict {
  const signal = state.signals.find((s) => s.id === action.signal);
  if (!signal) {
    const ended = state.ended.find((s) => s.id === action.signal);
    if (!ended) return refuse("noSuchSignal");
    if (ended.kind === "clearToStart" && ended.is === "expired" && ended.engine !== null) {
      return refuse("clearanceExpired", { engine: ended.engine });
    }
    return refuse("signalClosed", { found: ended.is });
  }
  const post = context.post;
  if (post === null || !signal.to.includes(post)) return refuse("notAddressed", { posts: signal.to });
  const { allowed } = signalOf(signal.kind).answer;
  if (!allowed.includes(action.answer)) {
    return refuse("answerNotAllowed", { found: allowed.join(", ") });
  }
  // Only a post whose answer is due may say more than "received"; a post in copy can only have received it.
  if (action.answer !== "received" && !signal.due.includes(post)) {
    return refuse("notAddressed", { posts: signal.due });
  }
  if (signal.answers[post]?.answer === action.answer) return refuse("alreadyDone");

  return (
    signalOf(signal.kind).answer.decide(state, signal, action, context) ??
    accept({ ...action, type: "answered" })
  );
}
