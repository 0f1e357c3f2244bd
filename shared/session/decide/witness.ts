import type { Send } from "../../protocol/commands.ts";
import { CATALOGUE } from "../catalogue.ts";
import { type Context, refuse, type Verdict } from "../verdict.ts";

/**
 * A hand signal may be recorded by a person who saw it, naming the post that gave it. That post must be one that may
 * send the kind, and not the recorder's own.
 */
export function witnessFault(send: Send, context: Context): Verdict | null {
  if (send.seenFrom === undefined) return null;
  const rule = CATALOGUE[send.kind];
  const givers = rule.from;
  if (
    !rule.witnessable ||
    send.channel === "panel" ||
    send.seenFrom === context.post ||
    (givers !== "anyone" && !givers.includes(send.seenFrom))
  ) {
    return refuse("notWitnessable", givers === "anyone" ? {} : { posts: [...givers] });
  }
  return null;
}
