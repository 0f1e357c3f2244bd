import type { Finding } from "../conditions/definition.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Override, SessionState } from "../session/state.ts";
import { covered, seenAside } from "./seen.ts";

/**
 * Returns whether two people have set this condition aside for this engine, in this epoch, with the present finding.
 */
export function overriddenBy(
  state: SessionState,
  condition: ConditionId,
  engine: number,
  finding: Finding,
  now: number,
): boolean {
  return state.overrides.some(
    (o) =>
      o.condition === condition &&
      o.engine === engine &&
      o.second !== null &&
      o.epoch === state.epoch &&
      stillCovers(state, o, finding, now),
  );
}

/**
 * Returns whether the present finding is the one that the two people saw. An older record did not keep it, so its
 * override always covers.
 */
export function stillCovers(state: SessionState, override: Override, finding: Finding, now: number): boolean {
  const { seen, condition, engine } = override;
  return seen === undefined || covered(seen, seenAside(state, condition, engine, finding, now));
}
