import { BODY } from "./body.ts";
import type { Arm, Side } from "./pose.ts";

/**
 * A point or direction as the reader of the signal sees the giver: x to the reader's right, which is the giver's left;
 * y up; z towards the reader. Hundredths of the giver's height, the feet at y = 0.
 */
export interface Point {
  x: number;
  y: number;
  z: number;
}

/** Places of the joints of one arm. `tip` is the end of the outstretched hand, `along` its direction (length 1). */
export interface ArmJoints {
  shoulder: Point;
  elbow: Point;
  wrist: Point;
  tip: Point;
  along: Point;
}

/** The direction along a segment, and the two directions in which it can bend. */
interface Frame {
  along: Point;
  up: Point;
  round: Point;
}

const RAD = Math.PI / 180;
const sum = (p: Point, q: Point, k: number): Point => ({
  x: p.x + q.x * k,
  y: p.y + q.y * k,
  z: p.z + q.z * k,
});
const mix = (p: Point, a: number, q: Point, b: number): Point =>
  sum({ x: p.x * a, y: p.y * a, z: p.z * a }, q, b);

/**
 * Returns the places of one arm's joints for its angles (forward kinematics). The giver's right arm is on the reader's
 * left: x below 0.
 */
export function armJoints(side: Side, arm: Arm): ArmJoints {
  const out = side === "right" ? -1 : 1;
  const shoulder = { x: out * BODY.shoulderHalf, y: BODY.shoulderHeight, z: 0 };
  const upper = raised(out, arm.shoulder);
  const fore = bent(upper, arm.elbow);
  const hand = bent(fore, arm.wrist);
  const elbow = sum(shoulder, upper.along, BODY.upperArm);
  const wrist = sum(elbow, fore.along, BODY.forearm);
  return { shoulder, elbow, wrist, tip: sum(wrist, hand.along, BODY.hand), along: hand.along };
}

function raised(out: number, [elevation, azimuth]: Arm["shoulder"]): Frame {
  const [e, a] = [elevation * RAD, azimuth * RAD];
  return {
    along: { x: out * Math.sin(e) * Math.cos(a), y: -Math.cos(e), z: Math.sin(e) * Math.sin(a) },
    up: { x: out * Math.cos(e) * Math.cos(a), y: Math.sin(e), z: Math.cos(e) * Math.sin(a) },
    round: { x: -out * Math.sin(a), y: 0, z: Math.cos(a) },
  };
}

/** Returns the next segment's frame: turned about the axis square to the bend, without twist. */
function bent({ along, up, round }: Frame, [bend, towards]: readonly [number, number]): Frame {
  const [b, t] = [bend * RAD, towards * RAD];
  const way = mix(up, Math.cos(t), round, Math.sin(t));
  const axis = mix(up, -Math.sin(t), round, Math.cos(t));
  const turned = mix(along, -Math.sin(b), way, Math.cos(b));
  return {
    along: mix(along, Math.cos(b), way, Math.sin(b)),
    up: mix(turned, Math.cos(t), axis, -Math.sin(t)),
    round: mix(turned, Math.sin(t), axis, Math.cos(t)),
  };
}
