import { findUnmet } from "../conditions/all.ts";
import { voltsExpected } from "../power/crankingSource.ts";
import type { Send } from "../protocol/commands.ts";
import type { Fact } from "../protocol/events.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { signal } from "../signals/kinds.ts";
import { spendClearance } from "./clearance.ts";
import { crank } from "./evolve.ts";
import { fireCrankFault } from "./fireCrank.ts";
import type { Engine } from "./life.ts";
import { ofEngine } from "./ofEngine.ts";

/** The starter is engaged. This uses up the clearance. */
export const cranking = signal({
  from: ["cockpit"],
  // An engine may be found turning in any live stage, so each report of it must be possible.
  stages: LIVE_STAGES,
  engine: "required",
  decide: ofEngine(engage),
  evolve(state, event, fact) {
    const n = fact.engine ?? 0;
    const life = state.engines[n - 1]?.life;
    const cleared = life?.is === "clear";
    const before = cleared ? spendClearance(state, life.clearance.id) : state;
    return crank(before, n, event.at, { cleared, expected: fact.expectedVolts });
  },
});

/**
 * Refused without a valid clearance; anybody can still report an engine that turns anyway with `turning`. In a fire the
 * crew may crank on without a clearance.
 */
function engage(state: SessionState, send: Send, engine: Engine, { now }: Context): Verdict {
  const life = engine.life;
  const expected = voltsExpected(state);
  const sent: Fact = { ...send, type: "sent", ...(expected.ok ? { expectedVolts: expected.value } : {}) };
  if (life.is === "fire") {
    return fireCrankFault(state, engine, now) ?? accept(sent);
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
