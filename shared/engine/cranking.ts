import { findUnmet } from "../conditions/all.ts";
import { voltsExpected } from "../power/crankingSource.ts";
import type { Send } from "../protocol/commands.ts";
import type { Fact } from "../protocol/events.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { lowering } from "../signals/kinds.ts";
import { turningSeen } from "../stops/turningSeen.ts";
import { spendClearance } from "./clearance.ts";
import { crank } from "./evolve.ts";
import { fireCrankFault } from "./fireCrank.ts";
import { type Clearance, type Engine, isTurning } from "./life.ts";

/** The starter is engaged. It uses the clearance up; without one that stands, the engine is one seen turning. */
export const cranking = lowering({
  from: ["cockpit"],
  engine: "required",
  decide(state, send, context) {
    const engine = engineOf(state, send.engine ?? 0);
    return engine ? engage(state, send, engine, context) : seenTurning(state, send);
  },
  evolve(state, event, fact) {
    const n = fact.engine ?? 0;
    const life = state.engines[n - 1]?.life;
    const cleared = life?.is === "clear";
    const before = cleared ? spendClearance(state, life.clearance.id) : state;
    return crank(before, n, event.at, { cleared, expected: fact.expectedVolts });
  },
});

/** Only that an engine known to turn is cranked once more is refused: it says nothing that is not recorded. */
function engage(state: SessionState, send: Send, engine: Engine, context: Context): Verdict {
  if (isTurning(engine.life)) {
    return refuse(lastWasUsed(state, send, engine) ? "clearanceUsed" : "alreadyDone", { engine: engine.n });
  }
  if (context.post !== "cockpit" || context.late === true) return seenTurning(state, send);
  const expected = voltsExpected(state);
  const sent: Fact = { ...send, type: "sent", ...(expected.ok ? { expectedVolts: expected.value } : {}) };
  // In a fire the crew may crank on without a clearance, unless that is worse than the fire.
  if (engine.life.is === "fire")
    return fireCrankFault(state, engine, context.now) ? seenTurning(state, send) : accept(sent);
  const clearance = clearanceFor(state, send, engine, context.now);
  return clearance ? accept({ ...sent, ref: clearance.id }) : seenTurning(state, send);
}

/** The clearance this uses: the engine's own, read back, in force, with every condition true now. */
function clearanceFor(state: SessionState, send: Send, engine: Engine, now: number): Clearance | null {
  if (engine.life.is !== "clear") return null;
  const { clearance } = engine.life;
  if (send.ref !== undefined && send.ref !== clearance.id) return null;
  if (now >= clearance.expiresAt || clearance.epoch !== state.epoch) return null;
  if (clearance.readBackAt === null) return null;
  return findUnmet(state, engine.n, now).length === 0 ? clearance : null;
}

/** It turns without clearance, whoever says so: recorded as an engine seen turning, which holds everything. */
function seenTurning(state: SessionState, { ref: _used, ...send }: Send): Verdict {
  return turningSeen(state, { ...send, kind: "turning" });
}

function lastWasUsed(state: SessionState, send: Send, engine: Engine): boolean {
  const old = state.ended.findLast(
    (s) =>
      s.kind === "clearToStart" && s.engine === engine.n && (send.ref === undefined || s.id === send.ref),
  );
  return old?.is === "done";
}
