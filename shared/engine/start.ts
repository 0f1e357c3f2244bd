import { findAll, findUnmet } from "../conditions/all.ts";
import { voltsExpected } from "../power/crankingSource.ts";
import type { Send } from "../protocol/commands.ts";
import type { Fact } from "../protocol/events.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { type Engine, isTurning, plain } from "./life.ts";
import { oilNeverCame } from "./oilLate.ts";

/** Signals of one engine's start, from the request to stable, and its end. */
export function decideStart(state: SessionState, send: Send, context: Context): Verdict {
  const engine = engineOf(state, send.engine ?? 0);
  if (!engine) return refuse("noSuchEngine");
  const life = plain(engine.life);
  const sent: Fact = { ...send, type: "sent" };
  const wrongState = () => refuse("wrongEngineState", { engine: engine.n, found: engine.life.is });

  switch (send.kind) {
    case "readyToStart":
      return request(state, send, engine);
    case "clearToStart":
      return clear(state, send, engine, context.now);
    case "revokeClearance": {
      if (life.is !== "clear") return refuse("nothingOpen", { engine: engine.n });
      const clearance = life.clearance.id;
      return accept(
        { ...send, ref: clearance, type: "sent" },
        { type: "clearanceVoid", engine: engine.n, clearance, cause: "revoked" },
      );
    }
    case "cranking":
      return crank(state, send, engine, context.now);
    case "caught":
      return life.is === "cranking" ? accept(sent) : wrongState();
    case "started":
      return life.is === "running" ? accept(sent) : wrongState();
    case "startAbandoned":
      return life.is === "requested" || life.is === "clear" || life.is === "cranking"
        ? accept(sent)
        : wrongState();
    default:
      return isTurning(life) ? accept(sent, ...oilNeverCame(engine, context.now)) : wrongState();
  }
}

/** A request stands on no condition: it asks the posts to meet them. Out of the planned order it needs a reason. */
function request(state: SessionState, send: Send, engine: Engine): Verdict {
  if (stopOpen(state)) return refuse("stopOpen");
  const is = engine.life.is;
  if (is !== "waiting" && is !== "shutDown" && is !== "cooling") {
    return refuse("wrongEngineState", { engine: engine.n, found: is });
  }
  const next = nextInOrder(state);
  if (next !== engine.n && send.note === undefined) {
    return refuse("badOrder", { engine: engine.n, found: next === null ? "none" : String(next) });
  }
  const facts: Fact[] = [];
  for (const other of state.engines) {
    if (other.life.is === "clear") return refuse("wrongEngineState", { engine: other.n, found: "clear" });
    if (other.life.is === "requested") {
      facts.push({ type: "requestWithdrawn", engine: other.n, signal: other.life.signal });
    }
  }
  return accept(...facts, { ...send, type: "sent" });
}

/** The first engine of the planned order that is not yet stable, null when all are. */
export function nextInOrder(state: SessionState): number | null {
  return state.order.find((n) => engineOf(state, n)?.life.is !== "stable") ?? null;
}

function clear(state: SessionState, send: Send, engine: Engine, now: number): Verdict {
  if (engine.life.is !== "requested") {
    return refuse("wrongEngineState", { engine: engine.n, found: engine.life.is });
  }
  const unmet = findUnmet(state, engine.n, now);
  if (unmet.length > 0) return refuse("conditionsUnmet", { engine: engine.n, unmet });
  return accept({
    ...send,
    type: "sent",
    ref: engine.life.signal,
    expiresAt: now + state.type.timing.clearance.value * 1000,
    basis: findAll(state, engine.n, now),
  });
}

/** Cranking uses up the clearance. With none that stands it is refused; an engine that turns all the same is
 * reported with `turning`, which anybody may send. In a fire the crew may crank on without one. */
function crank(state: SessionState, send: Send, engine: Engine, now: number): Verdict {
  const life = engine.life;
  const expected = voltsExpected(state);
  const sent: Fact = { ...send, type: "sent", ...(expected.ok ? { expectedVolts: expected.value } : {}) };
  if (life.is === "fire") {
    if (life.under.is === "cranking") return refuse("alreadyDone", { engine: engine.n });
    if (isTurning(life)) return refuse("wrongEngineState", { engine: engine.n, found: life.under.is });
    // Not even a fire turns a propeller somebody has hands on.
    const hands = findAll(state, engine.n, now).filter(
      (r) => r.id === "handsOffPropellers" && r.is !== "yes",
    );
    return hands.length === 0 || state.handling?.engine !== engine.n
      ? accept(sent)
      : refuse("conditionsUnmet", { engine: engine.n, unmet: hands });
  }
  if (life.is !== "clear")
    return refuse(goneBecause(state, send, engine), { engine: engine.n, found: life.is });
  const clearance = life.clearance;
  if (send.ref !== undefined && send.ref !== clearance.id) {
    return refuse(goneBecause(state, send, engine), { engine: engine.n });
  }
  if (now >= clearance.expiresAt) return refuse("clearanceExpired", { engine: engine.n });
  if (clearance.epoch !== state.epoch) return refuse("clearanceVoid", { engine: engine.n });
  if (clearance.readBackAt === null) return refuse("readBackWrong", { engine: engine.n, found: "none" });
  const unmet = findUnmet(state, engine.n, now);
  if (unmet.length > 0) return refuse("conditionsUnmet", { engine: engine.n, unmet });
  return accept({ ...sent, ref: clearance.id });
}

function goneBecause(state: SessionState, send: Send, engine: Engine) {
  const old = state.ended.findLast(
    (s) =>
      s.kind === "clearToStart" && s.engine === engine.n && (send.ref === undefined || s.id === send.ref),
  );
  if (old?.is === "done") return "clearanceUsed";
  if (old?.is === "expired") return "clearanceExpired";
  return "clearanceVoid";
}
