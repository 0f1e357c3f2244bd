import { AT_EASE } from "./arms.ts";
import { armJoints, type Point } from "./kinematics.ts";
import { between, type Pose, type Side } from "./pose.ts";
import type { Form, HandSignal, Key } from "./signal.ts";

/** Returns the key poses of a form; none for a signal that has no form with wands. */
export function keysOf(signal: HandSignal, form: Form): readonly Key[] {
  if (form === "day") return signal.day;
  return signal.wand === "same" ? signal.day : (signal.wand ?? []);
}

/**
 * Returns the key poses of one whole showing. A signal that is made once begins and ends with the arms at ease. Without
 * that pause a repeated showing of a closing fist would look like an opening one.
 */
export function showing(signal: HandSignal, form: Form): readonly Key[] {
  const keys = keysOf(signal, form);
  return signal.course === "once" ? [{ pose: AT_EASE, takes: 0.8, stays: 0.6 }, ...keys] : keys;
}

/** Returns the seconds of one showing. */
export function lasts(keys: readonly Key[]): number {
  return keys.reduce((sum, k) => sum + k.takes + k.stays, 0);
}

/** Returns the pose at `seconds` when the keys are shown again and again; the first key's hold begins at 0. */
export function poseAt(keys: readonly Key[], seconds: number): Pose {
  const first = keys[0];
  if (!first) throw new RangeError("no key poses");
  let left = seconds % lasts(keys);
  for (const [i, key] of keys.entries()) {
    if (left < key.stays) return key.pose;
    left -= key.stays;
    const next = keys[i + 1] ?? first;
    if (left < next.takes) return between(key.pose, next.pose, eased(left / next.takes));
    left -= next.takes;
  }
  return first.pose;
}

/** Slows the start and the end of a movement, because an arm starts and ends at rest. */
function eased(part: number): number {
  return part * part * (3 - 2 * part);
}

/** Returns the way of one hand's tip from key `from` to key `to`, in the given number of steps. */
export function handWay(from: Pose, to: Pose, side: Side, steps = 12): Point[] {
  return Array.from({ length: steps + 1 }, (_, i) => armJoints(side, between(from, to, i / steps)[side]).tip);
}
