import { correctedGravity, hydrometerOf } from "../checks/gravity.ts";
import { found, type Outcome } from "../models/outcome.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import type { Check } from "../types/schema.ts";

/**
 * Returns true if a figure is inside its check's range, bounds included. Null where the check has no range, or the
 * figure is missing or in another unit. A hydrometer's reading is refused while it cannot be corrected.
 */
export function inCheckRange(
  state: SessionState,
  { id, range }: Check,
  reading: Quantity | undefined,
): Outcome<boolean> | null {
  if (!range || reading?.unit !== range.unit) return null;
  const battery = hydrometerOf(state, id);
  const judged = battery ? correctedGravity(state, battery, reading.value) : found(reading.value);
  if (!judged.ok) return judged;
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = range;
  return found(judged.value >= min && judged.value <= max);
}
