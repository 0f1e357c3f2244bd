import type { Send } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { type Engine, type PlainLife, plain } from "./life.ts";

type EngineDecider = (state: SessionState, send: Send, engine: Engine, context: Context) => Verdict;

/** Returns a decider that receives the engine of its signal. It refuses when the aircraft has no such engine. */
export function ofEngine(decide: EngineDecider) {
  return (state: SessionState, send: Send, context: Context): Verdict => {
    const engine = engineOf(state, send.engine ?? 0);
    return engine ? decide(state, send, engine, context) : refuse("noSuchEngine");
  };
}

/** Returns a decider that accepts a report only for an engine in one of the given states, with or without fire. */
export function whenEngineIs(...lives: readonly PlainLife["is"][]) {
  return ofEngine((_state, send, engine) =>
    lives.includes(plain(engine.life).is) ? accept({ ...send, type: "sent" }) : wrongState(engine),
  );
}

export function wrongState(engine: Engine): Verdict {
  return refuse("wrongEngineState", { engine: engine.n, found: engine.life.is });
}
