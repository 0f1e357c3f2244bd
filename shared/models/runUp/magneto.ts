import { found, type Outcome, refused } from "../outcome.ts";

/** One engine's speed on both magnetos and on each alone, rpm. */
export interface MagnetoReading {
  both: number;
  left: number;
  right: number;
}

/** Limits of a type, rpm. Makers differ widely (75, 100, 150, 175), so they are data with a source. */
export interface MagnetoLimits {
  /** Greatest drop on either side. */
  maxDrop: number;
  /** Greatest difference between the sides' drops. */
  maxDifference: number;
}

export type MagnetoFault =
  | "leftOverMax"
  | "rightOverMax"
  | "uneven"
  /** No drop is a fault too: a switch that does not ground, or timing that is far advanced. */
  | "leftNoDrop"
  | "rightNoDrop";

export interface MagnetoVerdict {
  leftDrop: number;
  rightDrop: number;
  difference: number;
  faults: MagnetoFault[];
}

/**
 * Returns the drops, their difference and every fault. A drop or difference at the limit passes. Refuses figures that
 * are not speeds.
 */
export function magnetoCheck(reading: MagnetoReading, limits: MagnetoLimits): Outcome<MagnetoVerdict> {
  if (![reading.both, reading.left, reading.right].every((rpm) => Number.isFinite(rpm) && rpm >= 0)) {
    return refused("speeds must be readings of 0 or more");
  }
  const leftDrop = reading.both - reading.left;
  const rightDrop = reading.both - reading.right;
  const difference = Math.abs(leftDrop - rightDrop);
  const faults: MagnetoFault[] = [];
  if (leftDrop > limits.maxDrop) faults.push("leftOverMax");
  if (rightDrop > limits.maxDrop) faults.push("rightOverMax");
  if (difference > limits.maxDifference) faults.push("uneven");
  if (leftDrop <= 0) faults.push("leftNoDrop");
  if (rightDrop <= 0) faults.push("rightNoDrop");
  return found({ leftDrop, rightDrop, difference, faults });
}
