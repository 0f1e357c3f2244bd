import type { Send } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { type Context, refuse, type Verdict } from "../session/verdict.ts";
import { signalOf } from "./all.ts";
import { witnessFault } from "./witness.ts";

/** Makes the checks that apply to every kind, then calls the kind's own decider. A stop passes all of them. */
export function decideSend(state: SessionState, send: Send, context: Context): Verdict {
  const definition = signalOf(send.kind);
  const falseWitness = witnessFault(state, send, context);
  if (definition.stop) return definition.decide(state, falseWitness ? withoutWitness(send) : send, context);
  if (definition.engine === "required" && send.engine === undefined) return refuse("engineNeeded");
  if (send.engine !== undefined && !engineOf(state, send.engine)) {
    return refuse("noSuchEngine", { engine: send.engine, found: `1 to ${state.engines.length}` });
  }
  return falseWitness ?? definition.decide(state, send, context);
}

/** A stop is never refused for a faulty witness: it then counts as the sender's own. */
function withoutWitness({ seenFrom: _dropped, ...rest }: Send): Send {
  return rest;
}
