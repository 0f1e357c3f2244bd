import { shutDown } from "../engine/evolve.ts";
import { isTurning } from "../engine/life.ts";
import { oilNeverCame } from "../engine/oilLate.ts";
import type { Send } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import { attributionOf } from "../session/attribute.ts";
import type { SessionState, Signal } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { answerChoice, receivedChoice, unableChoice } from "../signals/answerChoice.ts";
import { closeSignal } from "../signals/close.ts";
import { ANNEX, type AnswerAction, toAllAndCockpit } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";
import { coolDownCut } from "../stopping/coolDown.ts";
import { knowsEngine, latched, stop, withoutEngine } from "./latch.ts";
import { slipOf } from "./slip.ts";
import { stillTurning } from "./stillTurning.ts";

const standard = { figure: "cutEngines", text: `${ANNEX} 5.1 item 10, cut engines` };

/** The cockpit must answer more than that it received a cut: that it is done. */
const answer = answers({
  due: toAllAndCockpit,
  allowed: ["received", "done", "unable"],
  closes: (post, given) => post !== "cockpit" || given === "done",
  decide: done,
  evolve: (state, event, fact, asked) => (fact.answer === "done" ? cutDone(state, event, asked) : state),
  asked: {
    weight: 0,
    choices: (_state, asked, post) =>
      post === "cockpit"
        ? [answerChoice(asked, "done", "yes"), answerChoice(asked, "received", "plain"), unableChoice(asked)]
        : [receivedChoice(asked)],
  },
});

const cutOf = {
  tone: "danger",
  incident: true,
  to: toAllAndCockpit,
  standard,
  answer,
  evolve: cutBegun,
} as const;

/** Stop one engine. Without an engine that the aircraft has, it means all of them. */
export const cut = stop({
  ...cutOf,
  engine: "required",
  decide: (state, send) =>
    accept(
      knowsEngine(state, send)
        ? { ...send, type: "sent" }
        : { ...withoutEngine(send), kind: "cutAll", type: "sent" },
    ),
});

export const cutAll = stop({
  ...cutOf,
  decide: (_state, send) => accept({ ...withoutEngine(send), type: "sent" }),
});

export const resetCut = signal({
  from: ["supervisor", "cockpit"],
  stages: LIVE_STAGES,
  decide: mayReset,
  evolve(state, _event, fact) {
    const cuts = state.cuts.filter((c) => c.id !== fact.ref);
    return closeSignal({ ...state, cuts }, fact.ref ?? 0, "done");
  },
});

function cutBegun(before: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const state = latched(before);
  const by = attributionOf(event, fact.seenFrom ?? null);
  const person = event.actor.kind === "person" ? event.actor.id : "";
  const begun = {
    id: event.seq,
    by,
    person,
    engine: fact.engine ?? null,
    doneAt: null,
    ...slipOf(state, event),
  };
  return { ...state, cuts: [...state.cuts, begun] };
}

/** Only the cockpit can answer that a cut is done. This ends the oil-pressure timers of each engine of the cut. */
function done(state: SessionState, asked: Signal, action: AnswerAction, context: Context): Verdict | null {
  if (action.answer !== "done") return null;
  if (context.post !== "cockpit") return refuse("answerNotAllowed", { posts: ["cockpit"] });
  const struck = state.engines.filter((e) => asked.engine === null || e.n === asked.engine);
  return accept(
    { ...action, type: "answered" },
    ...struck.flatMap((e) => [...oilNeverCame(e, context.now), ...coolDownCut(state, e, context.now)]),
  );
}

/** Returns the state after the cockpit reported a cut done: the engines of the cut are recorded as shut down. */
function cutDone(state: SessionState, event: SessionEvent, asked: Signal): SessionState {
  const struck = state.engines.filter(
    (e) => isTurning(e.life) && (asked.engine === null || e.n === asked.engine),
  );
  const stopped = struck.reduce((next, e) => shutDown(next, e.n, event, "cut"), state);
  return { ...stopped, cuts: stopped.cuts.map((c) => (c.id === asked.id ? { ...c, doneAt: event.at } : c)) };
}

/** A cut stays until the cockpit has reported the engines stopped and they are recorded as stopped. */
function mayReset(state: SessionState, send: Send): Verdict {
  const cut = state.cuts.find((c) => c.id === send.ref);
  if (!cut) return refuse("nothingOpen");
  const turning = stillTurning(state, cut);
  if (turning) return refuse("wrongEngineState", { engine: turning.n, found: turning.life.is });
  if (cut.doneAt === null)
    return refuse("wrongEngineState", { found: "notReportedDone", posts: ["cockpit"] });
  return accept({ ...send, type: "sent" });
}
