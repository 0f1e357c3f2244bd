/** Shape of the hand. With wands, every shape but `open` and `thumb…` points the wand along the hand. */
export type HandShape =
  | { is: "open" }
  | { is: "flat" }
  | { is: "fist" }
  | { is: "point" }
  | { is: "thumbUp" }
  | { is: "thumbDown" }
  | { is: "fingers"; n: number };

/** Direction of the palm: to the reader of the signal, to the giver, to the ground, up, in to or out from the body. */
export type Palm = "reader" | "giver" | "down" | "up" | "in" | "out";

/**
 * One arm by its joint angles, in degrees.
 * - `shoulder`: elevation from hanging (0 down, 90 level, 180 straight up, more leans over the head) and azimuth (0 out
 * to the arm's own side, 90 forward, more goes across the body).
 * - `elbow` and `wrist`: the bend (0 straight) and its direction: 0 towards more elevation, 90 towards more azimuth.
 * The frame is carried along the arm without twisting.
 */
export interface Arm {
  shoulder: readonly [elevation: number, azimuth: number];
  elbow: readonly [bend: number, towards: number];
  wrist: readonly [bend: number, towards: number];
  hand: HandShape;
  palm: Palm;
}

/** Both arms of the giver. Right and left are always the giver's own. */
export interface Pose {
  right: Arm;
  left: Arm;
}

export type Side = keyof Pose;

/** Returns the pose between two poses; `part` is 0 to 1. Hands change their shape when the second pose is nearer. */
export function between(a: Pose, b: Pose, part: number): Pose {
  return { right: armBetween(a.right, b.right, part), left: armBetween(a.left, b.left, part) };
}

function armBetween(a: Arm, b: Arm, part: number): Arm {
  const pair = (p: readonly [number, number], q: readonly [number, number]) =>
    [p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part] as const;
  const shown = part < 0.5 ? a : b;
  return {
    shoulder: pair(a.shoulder, b.shoulder),
    elbow: pair(a.elbow, b.elbow),
    wrist: pair(a.wrist, b.wrist),
    hand: shown.hand,
    palm: shown.palm,
  };
}
