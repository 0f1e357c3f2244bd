import { oilShort } from "../engine/oilLost.ts";
import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { inCheckRange } from "./inCheckRange.ts";

/** Returns true if a reading lowers confidence: oil pressure of an engine that had it, below the type's least. */
export function readingLowers(
  state: SessionState,
  { gauge, engine: n, reading }: Extract<Action, { type: "reading" }>,
): boolean {
  const engine = n === undefined ? undefined : engineOf(state, n);
  return engine !== undefined && gauge === "oilPressure" && oilShort(state, engine, reading);
}

/** Returns true if a check lowers confidence: found not good, or its figure outside the type's range. */
export function checkLowers(
  state: SessionState,
  { check: id, good, reading }: Extract<Action, { type: "recordCheck" }>,
): boolean {
  const check = state.type.checks.find((c) => c.id === id);
  if (!check?.range) return good === false;
  const judged = inCheckRange(state, check, reading);
  return judged?.ok === true && !judged.value;
}
