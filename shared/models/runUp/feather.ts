import { found, type Outcome, refused } from "../outcome.ts";

/** Speed before the feather control was pushed, the lowest speed seen, and the speed after it was pulled out, rpm. */
export interface FeatherReading {
  before: number;
  lowest: number;
  after: number;
}

/** Limits of a type, rpm. */
export interface FeatherLimits {
  /** Greatest drop at which the control must be pulled out (100: AOM46 3034). */
  maxDrop: number;
  /** The speed must return to within this of the speed before the check. */
  recovery: number;
}

export type FeatherFault = "noResponse" | "overMax" | "notRecovered";

/**
 * Returns whether the propeller responded, the control was pulled out in time and the speed came back. A drop at the
 * limit passes.
 */
export function featherCheck(
  reading: FeatherReading,
  limits: FeatherLimits,
): Outcome<{ drop: number; faults: FeatherFault[] }> {
  if (![reading.before, reading.lowest, reading.after].every((rpm) => Number.isFinite(rpm) && rpm >= 0)) {
    return refused("speeds must be readings of 0 or more");
  }
  const drop = reading.before - reading.lowest;
  const faults: FeatherFault[] = [];
  if (drop <= 0) faults.push("noResponse");
  if (drop > limits.maxDrop) faults.push("overMax");
  if (Math.abs(reading.before - reading.after) > limits.recovery) faults.push("notRecovered");
  return found({ drop, faults });
}
