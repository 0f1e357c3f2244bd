import type { Send } from "../protocol/commands.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import { newEpoch } from "../session/epoch.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept } from "../session/verdict.ts";
import { receivedChoice } from "../signals/answerChoice.ts";
import { closeKinds } from "../signals/close.ts";
import { type SignalDefinition, toAll } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";

/**
 * Returns the state in a new epoch, which every stop opens: it ends each clearance and leave, and takes back earlier
 * requests.
 */
export function latched(state: SessionState): SessionState {
  return closeKinds(newEpoch(state), ["allClear", "handlePropeller"], "revoked");
}

/** Answers to a stop: "received" is due from all posts. */
export const stopAnswers = answers({
  due: toAll,
  asked: { weight: 0, choices: (_state, asked) => [receivedChoice(asked)] },
});

/** Returns the definition of a stop: accepted from anyone in every live stage, even if parts are missing. */
export function stop(
  over: Partial<SignalDefinition> & Pick<SignalDefinition, "evolve" | "tone">,
): SignalDefinition {
  return signal({
    from: "anyone",
    stages: LIVE_STAGES,
    remind: "stop",
    escalate: "stopEscalate",
    witnessable: true,
    class: "stop",
    answer: stopAnswers,
    decide: (state, send) => accept({ ...withKnownEngine(state, send), type: "sent" }),
    ...over,
  });
}

/** Returns the stop without an engine that the aircraft does not have: it then means the wider stop. */
export function withKnownEngine(state: SessionState, send: Send): Send {
  return knowsEngine(state, send) ? send : withoutEngine(send);
}

export function knowsEngine(state: SessionState, send: Send): boolean {
  return send.engine !== undefined && engineOf(state, send.engine) !== undefined;
}

export function withoutEngine({ engine: _dropped, ...rest }: Send): Send {
  return rest;
}
