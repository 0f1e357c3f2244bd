import { LIVE_STAGES } from "../protocol/stages.ts";
import { accept } from "../session/verdict.ts";
import { receivedChoice } from "./answerChoice.ts";
import { type AnswerRules, type SignalDefinition, toAll, toNobody } from "./definition.ts";

/** Returns answer rules with defaults: only "received" is allowed, and any answer closes the signal. */
export function answers(over: Partial<AnswerRules> = {}): AnswerRules {
  return {
    due: toNobody,
    allowed: ["received"],
    closes: () => true,
    decide: () => null,
    evolve: (state) => state,
    asked: { weight: 3, choices: (_state, signal) => [receivedChoice(signal)] },
    ...over,
  };
}

/** A report that lowers confidence: taken from anybody, in every live stage. */
export function lowering(
  over: Partial<SignalDefinition> & Pick<SignalDefinition, "from" | "evolve">,
): SignalDefinition {
  return signal({ ...over, class: "lowers", stages: LIVE_STAGES });
}

type Needed = "from" | "stages" | "evolve";

/** Returns a definition with defaults: addressed to all others, about no engine, always accepted. */
export function signal(over: Partial<SignalDefinition> & Pick<SignalDefinition, Needed>): SignalDefinition {
  return {
    to: toAll,
    engine: "none",
    class: "raises",
    lowersBy: () => false,
    incident: false,
    tone: "plain",
    witnessable: false,
    standard: null,
    remind: null,
    escalate: null,
    decide: (_state, send) => accept({ ...send, type: "sent" }),
    answer: answers(),
    menu: null,
    ...over,
  };
}
