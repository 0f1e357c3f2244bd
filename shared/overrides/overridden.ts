import type { ConditionId } from "../protocol/conditions.ts";
import type { SessionState } from "../session/state.ts";

/** Whether two people have set this condition aside for this engine, in this epoch. */
export function overriddenBy(state: SessionState, condition: ConditionId, engine: number): boolean {
  return state.overrides.some(
    (o) => o.condition === condition && o.engine === engine && o.second !== null && o.epoch === state.epoch,
  );
}
