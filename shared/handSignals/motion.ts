import { AT_EASE } from "./arms.ts";
import { armJoints, type Point } from "./kinematics.ts";
import { between, type Pose, type Side } from "./pose.ts";
import type { Form, HandSignal, Key } from "./signal.ts";

/** The key poses of a form; a signal without a form with wands has none. */
export function keysOf(signal: HandSignal, form: Form): readonly Key[] {
  if (form === "day") return signal.day;
  return signal.wand === "same" ? signal.day : (signal.wand ?? []);
}

/**
 * The whole of one showing. A signal made once begins and ends with the arms at ease: shown in a ring without that
 * pause, closing a fist could not be told from opening it.
 */
export function showing(signal: HandSignal, form: Form): readonly Key[] {
  const keys = keysOf(signal, form);
  return signal.course === "once" ? [{ pose: AT_EASE, takes: 0.8, stays: 0.6 }, ...keys] : keys;
}

/** Seconds of one showing. */
export function lasts(keys: readonly Key[]): number {
  return keys.reduce((sum, k) => sum + k.takes + k.stays, 0);
}

/** The pose so many seconds into showing the keys round and round, the first one's stay at 0. */
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

/** An arm starts and ends a movement at rest. */
function eased(part: number): number {
  return part * part * (3 - 2 * part);
}

/** The way of one hand's tip from key `from` to key `to`, in so many steps. */
export function handWay(from: Pose, to: Pose, side: Side, steps = 12): Point[] {
  return Array.from({ length: steps + 1 }, (_, i) => armJoints(side, between(from, to, i / steps)[side]).tip);
}
