import type { Arm, HandShape, Palm, Pose } from "./pose.ts";
import type { Key } from "./signal.ts";

export const OPEN: HandShape = { is: "open" };
export const FLAT: HandShape = { is: "flat" };
export const FIST: HandShape = { is: "fist" };
export const POINT: HandShape = { is: "point" };

/** Returns an arm from its angles; see `Arm` for their meaning. */
export function arm(
  shoulder: Arm["shoulder"],
  elbow: Arm["elbow"],
  hand: HandShape = FLAT,
  palm: Palm = "in",
  wrist: Arm["wrist"] = [0, 0],
): Arm {
  return { shoulder, elbow, wrist, hand, palm };
}

/** Hanging at the side, the hand by the knee. */
export const AT_SIDE = arm([6, 20], [6, 90]);

export const AT_EASE: Pose = { right: AT_SIDE, left: AT_SIDE };

/** Returns a pose with the same angles on both sides. */
export const both = (a: Arm): Pose => ({ right: a, left: a });

export const right = (a: Arm, left: Arm = AT_SIDE): Pose => ({ right: a, left });

export const key = (pose: Pose, takes: number, stays = 0): Key => ({ pose, takes, stays });

/** Returns an arm with the upper arm raised by `elevation` and the forearm straight up. */
export const forearmUp = (elevation: number, azimuth: number, hand: HandShape, palm: Palm): Arm =>
  arm([elevation, azimuth], [180 - elevation, 0], hand, palm);
