import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult, Refusal } from "../../shared/protocol/refusal.ts";

/** What a command was and what it led to, kept so that a repeat gets the same answer. */
export interface Answered {
  /** Digest of the command, its panel time left out. */
  digest: string;
  /** Number of the last event that bears the command's id. */
  seq: number;
  refusal: Refusal | null;
}

/** Adds to `answered` what these events say of the commands they bear. Works alike on fresh and on replayed ones. */
export function noteAnswers(answered: Map<string, Answered>, events: readonly SessionEvent[]): void {
  for (const { command, digest, seq, fact } of events) {
    if (command === null || digest === null) continue;
    const refusal = fact.type === "refused" ? fact.refusal : (answered.get(command)?.refusal ?? null);
    answered.set(command, { digest, seq, refusal: refusal as Refusal | null });
  }
}

/** The answer to a command from what was recorded of it. */
export function firstAnswer({ seq, refusal }: Answered): CommandResult {
  return refusal ? { status: "refused", seq, refusal } : { status: "accepted", seq };
}

/** The answer to a command that was answered before: the same again, or a refusal when its id now bears another. */
export function repeatAnswer(before: Answered, digest: string): CommandResult {
  if (before.digest !== digest) return { status: "refused", seq: null, refusal: { reason: "idReused" } };
  return {
    status: "duplicate",
    seq: before.seq,
    ...(before.refusal ? { refusal: before.refusal } : {}),
  };
}
