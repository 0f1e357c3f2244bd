import { findAll, findUnmet } from "../conditions/all.ts";
import type { Send } from "../protocol/commands.ts";
import type { FactOf } from "../protocol/events.ts";
import { engineOf, type SessionState, type Signal } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { answerChoice, unableChoice } from "../signals/answerChoice.ts";
import { ANNEX, type AnswerAction, toOnly } from "../signals/definition.ts";
import { answers, lowering, signal } from "../signals/kinds.ts";
import { clearanceEnd, grant } from "./clearance.ts";
import { withEngine, withLife } from "./evolve.ts";
import { type Engine, plain } from "./life.ts";
import { ofEngine, wrongState } from "./ofEngine.ts";

/** The permission to start one engine. The crew reads it back by entering the engine's number again. */
export const clearToStart = signal({
  from: ["supervisor"],
  stages: ["starting"],
  engine: "required",
  standard: { figure: "startEngine", text: `${ANNEX} 5.1 item 9, start engine` },
  remind: "readBack",
  decide: ofEngine(clear),
  evolve: grant,
  answer: answers({
    due: toOnly("cockpit"),
    allowed: ["readBack", "unable"],
    decide(state, asked, action, { now }) {
      if (action.answer === "readBack") return readBack(state, asked, action, now);
      return action.answer === "unable" ? declined(asked, action) : null;
    },
    evolve(state, event, fact, asked) {
      if (fact.answer !== "readBack" || asked.engine === null) return state;
      return withEngine(state, asked.engine, (e) =>
        e.life.is === "clear" && e.life.clearance.id === asked.id
          ? withLife(e, { ...e.life, clearance: { ...e.life.clearance, readBackAt: event.at } })
          : e,
      );
    },
    asked: {
      weight: 2,
      choices: (_state, asked) => [
        answerChoice(asked, "readBack", "yes", { need: { is: "engine" } }),
        unableChoice(asked),
      ],
    },
  }),
});

/**
 * Takes a clearance back: it ends by its own event. Where it was used already, the engine is marked; without an engine
 * that the aircraft has, every engine's clearance is meant.
 */
export const revokeClearance = lowering({
  from: ["supervisor", "fireGuard", "cockpit"],
  engine: "required",
  decide(state, send) {
    const voided = meant(state, send.engine).flatMap((engine): FactOf<"clearanceVoid">[] => {
      const life = plain(engine.life);
      if (life.is !== "clear") return [];
      return [clearanceEnd(engine.n, life.clearance.id, "revoked")];
    });
    const [first] = voided;
    return accept({ ...send, ...(first ? { ref: first.clearance } : {}), type: "sent" }, ...voided);
  },
  evolve: (state, _event, fact) =>
    meant(state, fact.engine).reduce((next, { n }) => withEngine(next, n, revokedTooLate), state),
  menu: {
    own: ["cockpit", "fireGuard", "supervisor"],
    seenBy: [],
    when: ["clear", "cranking", "caught"],
    tone: "plain",
  },
});

function meant(state: SessionState, n: number | undefined): Engine[] {
  return state.engines.filter((e) => n === undefined || e.n === n);
}

function revokedTooLate(engine: Engine): Engine {
  const life = plain(engine.life);
  if (life.is !== "cranking" && life.is !== "caught" && life.is !== "running") return engine;
  return withLife(engine, { ...life, revoked: true });
}

function clear(state: SessionState, send: Send, engine: Engine, { now }: Context): Verdict {
  if (engine.life.is !== "requested") return wrongState(engine);
  const unmet = findUnmet(state, engine.n, now);
  if (unmet.length > 0) return refuse("conditionsUnmet", { engine: engine.n, unmet });
  // A supervisor of several aircraft clears only at the one where they stand, and names it.
  if (state.supervisesAlso && send.standsAt !== state.aircraft)
    return refuse("notStandingHere", { engine: engine.n, found: state.aircraft });
  return accept({
    ...send,
    type: "sent",
    ref: engine.life.signal,
    expiresAt: now + state.type.timing.clearance.value * 1000,
    basis: findAll(state, engine.n, now),
  });
}

/** The cockpit does not want to start on this clearance, so it ends. */
function declined(asked: Signal, action: AnswerAction): Verdict {
  const engine = asked.engine ?? 0;
  return accept({ ...action, type: "answered" }, clearanceEnd(engine, asked.id, "revoked"));
}

/**
 * The cockpit enters the engine's number again by hand. A wrong number ends the clearance; the supervisor must give a
 * new one.
 */
function readBack(state: SessionState, asked: Signal, action: AnswerAction, now: number): Verdict {
  if (action.engine === undefined) return refuse("engineNeeded");
  const engine = asked.engine ?? 0;
  const life = engineOf(state, engine)?.life;
  if (life?.is !== "clear" || life.clearance.id !== asked.id) return refuse("clearanceVoid", { engine });
  if (now >= life.clearance.expiresAt) return refuse("clearanceExpired", { engine });
  if (action.engine === engine) return accept({ ...action, type: "answered", right: true });
  return {
    facts: [{ ...action, type: "answered", right: false }, clearanceEnd(engine, asked.id, "readBackWrong")],
    refusal: { reason: "readBackWrong", engine, found: String(action.engine) },
  };
}
