import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import type { EngineLife } from "./life.ts";

/** Returns the first engine of the planned order that is not yet stable; null when all are. */
export function nextInOrder(state: SessionState): number | null {
  return state.order.find((n) => engineOf(state, n)?.life.is !== "stable") ?? null;
}

/**
 * Returns true while the next engine may be requested: in the starting stage, with no engine being started and no stop
 * open.
 */
export function isNextFree(state: SessionState): boolean {
  if (state.stage !== "starting" || stopOpen(state)) return false;
  return !state.engines.some((e) => UNDER_WAY.includes(e.life.is));
}

const UNDER_WAY: readonly EngineLife["is"][] = [
  "requested",
  "clear",
  "cranking",
  "caught",
  "running",
  "fire",
];
