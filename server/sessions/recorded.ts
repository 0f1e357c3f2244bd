import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult, Refusal } from "../../shared/protocol/refusal.ts";

/** A command's recorded result, kept so that a repeat gets the same answer. */
export interface Answered {
  /** Digest of the command without its panel time. */
  digest: string;
  /** Sequence number of the last event with the command's id. */
  seq: number;
  refusal: Refusal | null;
}

/** Answered commands per session that stay in memory. A four-engine start has some 600. Older ones are in the store. */
export const ANSWERED_KEPT = 5_000;

/** Forgets the oldest answers beyond those that stay in memory. */
export function forgetOldAnswers(answered: Map<string, Answered>): void {
  for (const id of answered.keys()) {
    if (answered.size <= ANSWERED_KEPT) return;
    answered.delete(id);
  }
}

/**
 * Adds the results of the commands in these events to `answered`, the newest last. Works for new and for replayed
 * events.
 */
export function noteAnswers(answered: Map<string, Answered>, events: readonly SessionEvent[]): void {
  for (const { command, digest, seq, fact } of events) {
    if (command === null || digest === null) continue;
    const refusal = fact.type === "refused" ? fact.refusal : (answered.get(command)?.refusal ?? null);
    answered.set(command, { digest, seq, refusal: refusal as Refusal | null });
  }
}

/** Returns the answer to a command from its recorded result. */
export function firstAnswer({ seq, refusal }: Answered): CommandResult {
  return refusal ? { status: "refused", seq, refusal } : { status: "accepted", seq };
}

/**
 * Returns the answer to a repeated command: the first answer again, or a refusal when its id was used for another
 * command.
 */
export function repeatAnswer(before: Answered, digest: string): CommandResult {
  if (before.digest !== digest) return { status: "refused", seq: null, refusal: { reason: "idReused" } };
  return {
    status: "duplicate",
    seq: before.seq,
    ...(before.refusal ? { refusal: before.refusal } : {}),
  };
}
