import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import type { EngineLife } from "./life.ts";

/** Returns the first engine of the planned order that is not yet stable; null when all are. */
export function nextInOrder(state: SessionState): number | null {
  return state.order.find((n) => engineOf(state, n)?.life.is !== "stable") ?? null;
}

/**
 * Returns the engine that the next clearance is for, and the one that is being started before it, if there is one. Null
 * when no other engine is left to start.
 */
export function nextToClear(state: SessionState): { n: number; after: number | null } | null {
  const is = (n: number) => engineOf(state, n)?.life.is ?? "waiting";
  const after = state.order.find((n) => STARTED.includes(is(n))) ?? null;
  const n = state.order.find((e) => is(e) !== "stable" && !STARTED.includes(is(e)));
  return n === undefined ? null : { n, after };
}

/**
 * Returns true while the next engine may be requested: in the starting stage, with no engine being started and no stop
 * open.
 */
export function isNextFree(state: SessionState): boolean {
  if (state.stage !== "starting" || stopOpen(state)) return false;
  return !state.engines.some((e) => UNDER_WAY.includes(e.life.is));
}

/** From the starter's first turn until it is stable. */
const STARTED: readonly EngineLife["is"][] = ["cranking", "caught", "running", "fire"];
const UNDER_WAY: readonly EngineLife["is"][] = ["requested", "clear", ...STARTED];
