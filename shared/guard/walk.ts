import { isTurning } from "../engine/life.ts";
import { guardStation } from "../models/geometry/guardStation.ts";
import type { Point } from "../models/geometry/polygon.ts";
import { propellerOf } from "../models/geometry/propeller.ts";
import { shortestWalk, type Walk } from "../models/geometry/walk.ts";
import { type Outcome, refused } from "../models/outcome.ts";
import { inUnit } from "../models/units.ts";
import { closedBy } from "../plan/orderAdvice.ts";
import type { SessionState } from "../session/state.ts";

/** The part of a session that decides the guard's way. A plan has it too: no engine turns, and the guard waits. */
export type GuardCase = Pick<SessionState, "type" | "engines" | "guard">;

/** Returns the engines whose arcs the way to this engine must avoid. */
export function turningBut(state: GuardCase, engine: number): number[] {
  return state.engines.filter((e) => isTurning(e.life) && e.n !== engine).map((e) => e.n);
}

/**
 * Returns the guard's way to an engine from the present place, past every arc and stream that turns. Refused when there
 * is no clear place or no way, or when the type has no rule for its guard.
 */
export function guardWalk(state: GuardCase, engine: number): Outcome<Walk> {
  const rules = state.type.ramp?.guard;
  if (!rules) return refused("the type gives no rule for its guard");
  const at = state.guard?.engine ?? null;
  const turning = turningBut(state, engine);
  // The guard may stand at an engine whose arc has since closed that place, so only the ground of the other engines is
  // checked there.
  const others = turning.filter((n) => n !== at);
  const start: Outcome<Point> =
    at === null ? { ok: true, value: rules.waits } : guardPlace(state, at, others);
  const end = guardPlace(state, engine, turning);
  if (!start.ok || !end.ok) return refused("there is no clear place for the guard");
  return shortestWalk(
    start.value,
    end.value,
    turning.flatMap((n) => closedBy(state.type, n)),
  );
}

/** Returns the guard's place at an engine while others turn. */
export function guardPlace(state: GuardCase, n: number, turning: readonly number[]): Outcome<Point> {
  const propeller = propellerOf(state.type, n);
  const rules = state.type.ramp?.guard;
  if (!propeller || !rules) return refused("the type gives no rule for its guard");
  const closed = turning.flatMap((k) => closedBy(state.type, k));
  return guardStation(propeller, closed, {
    standOff: inUnit(rules.standOff, "m"),
    ahead: inUnit(rules.ahead, "m"),
    aheadMost: inUnit(rules.aheadMost, "m"),
  });
}
