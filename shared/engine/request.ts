import type { Send } from "../protocol/commands.ts";
import type { Fact } from "../protocol/events.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";
import { SI, toOnly } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";
import { withEngine, withLife } from "./evolve.ts";
import { type Engine, plain } from "./life.ts";
import { nextInOrder } from "./nextInOrder.ts";
import { ofEngine, wrongState } from "./ofEngine.ts";

/** The crew asks to start one engine. The supervisor answers with a clearance or with "unable". */
export const readyToStart = signal({
  from: ["cockpit"],
  stages: ["starting"],
  engine: "required",
  witnessable: true,
  standard: { figure: "readyToStart", text: `${SI}(5): fingers of one hand show the engine's number` },
  remind: "request",
  decide: ofEngine(request),
  evolve: (state, event, fact) =>
    withEngine(state, fact.engine ?? 0, (e) =>
      withLife(e, { is: "requested", since: event.at, signal: event.seq }),
    ),
  answer: answers({
    due: toOnly("supervisor"),
    allowed: ["received", "unable"],
    closes: (_post, answer) => answer !== "received",
    evolve(state, _event, fact, { engine }) {
      if (fact.answer !== "unable" || engine === null) return state;
      const life = engineOf(state, engine)?.life;
      const requested = life !== undefined && plain(life).is === "requested";
      return requested ? withEngine(state, engine, (e) => withLife(e, { is: "waiting" })) : state;
    },
    // The supervisor is asked for the clearance itself, not for an answer.
    asked: null,
  }),
  menu: {
    own: ["cockpit"],
    seenBy: ["fireGuard", "groundPower", "supervisor"],
    when: ["waiting", "shutDown", "cooling"],
    tone: "plain",
  },
});

/** A request needs no condition: it asks the posts to meet them. A request out of the planned order needs a reason. */
function request(state: SessionState, send: Send, engine: Engine): Verdict {
  if (stopOpen(state)) return refuse("stopOpen");
  const is = engine.life.is;
  if (is !== "waiting" && is !== "shutDown" && is !== "cooling") return wrongState(engine);
  const next = nextInOrder(state);
  if (next !== engine.n && send.note === undefined) {
    return refuse("badOrder", { engine: engine.n, found: next === null ? "none" : String(next) });
  }
  const facts: Fact[] = [];
  for (const other of state.engines) {
    if (other.life.is === "clear") return wrongState(other);
    if (other.life.is === "requested") {
      facts.push({ type: "requestWithdrawn", engine: other.n, signal: other.life.signal });
    }
  }
  return accept(...facts, { ...send, type: "sent" });
}
