import { acknowledgeFor } from "../alerts/evolve.ts";
import { drillCauses, isCardOf } from "../drills/causes.ts";
import { WAS_A_SLIP } from "../drills/outcome.ts";
import type { Send } from "../protocol/commands.ts";
import type { Fact } from "../protocol/events.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { receivedChoice } from "../signals/answerChoice.ts";
import { closeSignal } from "../signals/close.ts";
import { toAll } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";
import { neverAlight } from "./alight.ts";
import { enginesOf, refsOf } from "./fireSeats.ts";
import { type Given, slipFault, stopGiven } from "./slip.ts";

/**
 * Takes a stop back as a slip. Everybody who was told of the stop is told, and answers that they know. What the stop
 * ended stays ended.
 */
export const disregard = signal({
  from: "anyone",
  stages: LIVE_STAGES,
  decide: mayDisregard,
  evolve(state, _event, fact) {
    const given = fact.ref === undefined ? undefined : stopGiven(state, fact.ref);
    return given ? closeSignal(without(state, given), given.stop.id, "revoked") : state;
  },
  answer: answers({
    due: toAll,
    evolve: (state, { actor }, _fact, { ref }) =>
      ref === null || actor.kind !== "person" || actor.post === null
        ? state
        : acknowledgeFor(state, ref, actor.post),
    asked: { weight: 2, choices: (_state, asked) => [receivedChoice(asked)] },
  }),
});

/** The note and the engine say which stop it was, for those who hear only this. */
function mayDisregard(state: SessionState, send: Send, context: Context): Verdict {
  const given = send.ref === undefined ? undefined : stopGiven(state, send.ref);
  if (!given) return refuse("nothingOpen");
  const refusal = slipFault(state, given, context.person, context.now);
  if (refusal) return { facts: [], refusal };
  const { engine: _own, ...rest } = send;
  const engine = engineOf(given);
  const fact: Fact = { ...rest, ...(engine === null ? {} : { engine }), note: given.kind, type: "sent" };
  return accept(fact, ...drillsOver(state, given));
}

function engineOf(given: Given): number | null {
  if (given.kind === "hold") return null;
  if (given.kind !== "fire") return given.stop.engine;
  const [only = null, ...others] = enginesOf(given.stop);
  return others.length === 0 ? only : null;
}

/** Ends the drills that the fire alone opened; nobody has worked a step of them. */
function drillsOver(state: SessionState, { kind, stop }: Given): Fact[] {
  if (kind !== "fire") return [];
  const refs = refsOf(stop);
  const fires = state.fires.filter((f) => f.id !== stop.id);
  const causes = drillCauses({ ...state, fires });
  return state.drills
    .filter((run) => run.ref !== null && refs.includes(run.ref) && !causes.some((c) => isCardOf(c, run)))
    .map((run): Fact => ({ type: "drillEnded", run: run.id, outcome: WAS_A_SLIP }));
}

function without(state: SessionState, { kind, stop }: Given): SessionState {
  switch (kind) {
    case "hold":
      return { ...state, holds: state.holds.filter((h) => h.id !== stop.id) };
    case "cut":
    case "cutAll":
      return { ...state, cuts: state.cuts.filter((c) => c.id !== stop.id) };
    case "fire": {
      const fires = state.fires.filter((f) => f.id !== stop.id);
      return neverAlight({ ...state, fires }, stop);
    }
  }
}
