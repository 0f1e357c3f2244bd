import { chargeFromGravity } from "../models/electrical/battery.ts";
import { gravityAt80F } from "../models/electrical/specificGravity.ts";
import { found, type Outcome, refused } from "../models/outcome.ts";
import { inUnit } from "../models/units.ts";
import type { SessionState } from "../session/state.ts";
import type { BatteryData } from "../types/electrical.ts";

/** Returns the battery whose hydrometer a check reads, if it reads one. */
export function hydrometerOf(state: SessionState, check: string): BatteryData | null {
  return state.type.electrical?.batteries?.find((b) => b.gravity?.check === check) ?? null;
}

/** Returns a hydrometer's reading converted to 80 °F, once the electrolyte's temperature is known. */
export function correctedGravity(
  state: SessionState,
  { gravity }: BatteryData,
  read: number,
): Outcome<number> {
  if (!gravity) return refused("the type asks for no hydrometer reading");
  const warm = state.checks[gravity.temperature]?.reading;
  if (!warm) return refused("its electrolyte's temperature has not been read");
  return gravityAt80F(read, inUnit(warm, "degF"), gravity.rule);
}

/**
 * Returns the gravity at 80 °F and the charge, 0 to 1, of a battery whose hydrometer was read; null where nobody has
 * read it.
 */
export function gravityNow(
  state: SessionState,
  battery: BatteryData,
): Outcome<{ at80F: number; charge: number }> | null {
  const read = battery.gravity && state.checks[battery.gravity.check]?.reading;
  if (!read) return null;
  const at80F = correctedGravity(state, battery, read.value);
  if (!at80F.ok) return at80F;
  const charge = chargeFromGravity(battery.cell, at80F.value);
  return charge.ok ? found({ at80F: at80F.value, charge: charge.value }) : charge;
}
