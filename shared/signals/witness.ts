import type { Send } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { type Context, refuse, type Verdict } from "../session/verdict.ts";
import { signalOf } from "./all.ts";

/**
 * Returns the fault of a witness, or null. A person who saw a hand signal may record it and name the post that gave it.
 * That post must be held, must be allowed to send the kind, and must not be the recorder's own.
 */
export function witnessFault(state: SessionState, send: Send, context: Context): Verdict | null {
  const giver = send.seenFrom;
  if (giver === undefined) return null;
  const { from, witnessable } = signalOf(send.kind);
  const gives = from === "anyone" || from.includes(giver);
  if (!witnessable || send.channel === "panel" || giver === context.post || !gives) {
    return refuse("notWitnessable", from === "anyone" ? {} : { posts: [...from] });
  }
  return state.posts[giver] === null ? refuse("postVacant", { posts: [giver] }) : null;
}
