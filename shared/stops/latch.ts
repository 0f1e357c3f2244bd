import type { Send } from "../protocol/commands.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import { newEpoch } from "../session/epoch.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept } from "../session/verdict.ts";
import { receivedChoice } from "../signals/answerChoice.ts";
import { closeKinds } from "../signals/close.ts";
import { type SignalDefinition, toAll } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";

/** Every stop opens a new epoch, which ends each clearance and leave, and takes back what was asked before it. */
export function latched(state: SessionState): SessionState {
  return closeKinds(newEpoch(state), ["allClear", "handlePropeller"], "revoked");
}

/** What all posts are due for a stop: that they received it. */
export const stopAnswers = answers({
  due: toAll,
  asked: { weight: 0, choices: (_state, asked) => [receivedChoice(asked)] },
});

/** A stop: taken from anyone, in every live stage, whatever it lacks. */
export function stop(
  over: Partial<SignalDefinition> & Pick<SignalDefinition, "evolve" | "tone">,
): SignalDefinition {
  return signal({
    from: "anyone",
    stages: LIVE_STAGES,
    remind: "stop",
    escalate: "stopEscalate",
    witnessable: true,
    stop: true,
    answer: stopAnswers,
    decide: (state, send) => accept({ ...withKnownEngine(state, send), type: "sent" }),
    ...over,
  });
}

/** The stop without an engine that the aircraft does not have: it then means the wider thing. */
export function withKnownEngine(state: SessionState, send: Send): Send {
  return knowsEngine(state, send) ? send : withoutEngine(send);
}

export function knowsEngine(state: SessionState, send: Send): boolean {
  return send.engine !== undefined && engineOf(state, send.engine) !== undefined;
}

export function withoutEngine({ engine: _dropped, ...rest }: Send): Send {
  return rest;
}
