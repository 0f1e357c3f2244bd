import type { Send } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { type Context, refuse, type Verdict } from "../session/verdict.ts";
import { signalOf } from "./all.ts";
import { sentAs } from "./sentAs.ts";
import { witnessFault } from "./witness.ts";

/**
 * Makes the checks that apply to every kind, then calls the kind's own decider. A stop passes all of them, and so does a
 * report that lowers confidence.
 */
export function decideSend(state: SessionState, send: Send, context: Context): Verdict {
  const definition = signalOf(send.kind);
  const is = sentAs(state, send);
  const falseWitness = witnessFault(state, send, context);
  if (is === "stop") return definition.decide(state, falseWitness ? withoutWitness(send) : send, context);
  if (is === "lowers") {
    const known = withoutUnknownEngine(state, send);
    // A person who only saw it uses up no clearance.
    return falseWitness
      ? definition.decide(state, withoutWitness(known), { ...context, post: null })
      : definition.decide(state, known, context);
  }
  if (definition.engine === "required" && send.engine === undefined) return refuse("engineNeeded");
  if (send.engine !== undefined && !engineOf(state, send.engine)) {
    return refuse("noSuchEngine", { engine: send.engine, found: `1 to ${state.engines.length}` });
  }
  return falseWitness ?? definition.decide(state, send, context);
}

/** A stop or report is never refused for a faulty witness: it then counts as the sender's own. */
function withoutWitness({ seenFrom: _dropped, ...rest }: Send): Send {
  return rest;
}

/** A report about an engine that the aircraft does not have is about the whole aircraft. */
function withoutUnknownEngine(state: SessionState, send: Send): Send {
  if (send.engine === undefined || engineOf(state, send.engine)) return send;
  const { engine: _unknown, ...rest } = send;
  return rest;
}
