import { oilNeverCame } from "../engine/oilLate.ts";
import { authorityFault } from "../leaves/decide.ts";
import type { Action } from "../protocol/commands.ts";
import type { FactOf } from "../protocol/events.ts";
import { engineOf, isService, type SessionState, type Signal } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { CATALOGUE } from "./catalogue.ts";

type AnswerAction = Extract<Action, { type: "answer" }>;

/** Only an addressed post answers, only while the signal lives, and only as its kind allows. */
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
  if (!CATALOGUE[signal.kind].answers.includes(action.answer)) {
    return refuse("answerNotAllowed", { found: CATALOGUE[signal.kind].answers.join(", ") });
  }
  // "Done", "authorise" and the like are for the post whose answer is due; a copied post can only have received it.
  if (action.answer !== "received" && !signal.due.includes(post)) {
    return refuse("notAddressed", { posts: signal.due });
  }
  if (signal.answers[post]?.answer === action.answer) return refuse("alreadyDone");

  if (action.answer === "readBack") return readBack(state, signal, action, context.now);
  if (action.answer === "authorise") {
    if (post !== "cockpit") return refuse("answerNotAllowed", { posts: ["cockpit"] });
    const unsafe = isService(signal.kind)
      ? authorityFault(state, signal.kind, context.now, signal.engine)
      : null;
    if (unsafe) return unsafe;
  }
  if (action.answer === "done" && post !== "cockpit")
    return refuse("answerNotAllowed", { posts: ["cockpit"] });
  // The crew gives leave or not: that it will comply would close the request with nothing allowed.
  if (action.answer === "willComply" && isService(signal.kind) && post === "cockpit") {
    return refuse("answerNotAllowed", { found: "authorise, received, unable" });
  }
  if (action.answer === "unable" && signal.kind === "clearToStart") return declined(signal, action);
  return accept({ ...action, type: "answered" }, ...whatCutEnds(state, signal, action, context.now));
}

/** A cut done ends the wait for oil pressure of what it struck. */
function whatCutEnds(
  state: SessionState,
  signal: Signal,
  action: AnswerAction,
  now: number,
): FactOf<"exceeded">[] {
  if (action.answer !== "done") return [];
  return state.engines
    .filter((e) => signal.engine === null || e.n === signal.engine)
    .flatMap((e) => oilNeverCame(e, now));
}

/** The cockpit will not start on this clearance: it ends. */
function declined(signal: Signal, action: AnswerAction): Verdict {
  const engine = signal.engine ?? 0;
  return accept(
    { ...action, type: "answered" },
    { type: "clearanceVoid", engine, clearance: signal.id, cause: "revoked" },
  );
}

/** The engine's number is entered again by hand. A wrong one ends the clearance: the supervisor says it anew. */
function readBack(state: SessionState, signal: Signal, action: AnswerAction, now: number): Verdict {
  if (action.engine === undefined) return refuse("engineNeeded");
  const engine = signal.engine ?? 0;
  const life = engineOf(state, engine)?.life;
  if (life?.is !== "clear" || life.clearance.id !== signal.id) return refuse("clearanceVoid", { engine });
  if (now >= life.clearance.expiresAt) return refuse("clearanceExpired", { engine });
  if (action.engine === engine) return accept({ ...action, type: "answered", right: true });
  return {
    facts: [
      { ...action, type: "answered", right: false },
      { type: "clearanceVoid", engine, clearance: signal.id, cause: "readBackWrong" },
    ],
    refusal: { reason: "readBackWrong", engine, found: String(action.engine) },
  };
}
