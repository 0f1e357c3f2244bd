import type { Finding } from "../conditions/definition.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Override, SessionState } from "../session/state.ts";
import { covered, seenAside } from "./seen.ts";

/** Whether two people have set this condition aside for this engine, in this epoch, as it is found now. */
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

/** Whether what is found now is what the two people saw. One of an older record, which did not keep it, always covers. */
export function stillCovers(state: SessionState, override: Override, finding: Finding, now: number): boolean {
  const { seen, condition, engine } = override;
  return seen === undefined || covered(seen, seenAside(state, condition, engine, finding, now));
}
