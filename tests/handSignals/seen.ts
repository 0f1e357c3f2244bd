import { handSignal } from "../../shared/handSignals/all.ts";
import { BODY } from "../../shared/handSignals/body.ts";
import { type ArmJoints, armJoints } from "../../shared/handSignals/kinematics.ts";
import { keysOf } from "../../shared/handSignals/motion.ts";
import type { Arm } from "../../shared/handSignals/pose.ts";
import type { Form, HandSignal } from "../../shared/handSignals/signal.ts";

/** Both arms of one key pose: the angles and the places of the joints. */
export interface Stance {
  right: ArmJoints & { arm: Arm };
  left: ArmJoints & { arm: Arm };
}

export function stancesOf(signal: HandSignal, form: Form = "day"): Stance[] {
  return keysOf(signal, form).map(({ pose }) => ({
    right: { ...armJoints("right", pose.right), arm: pose.right },
    left: { ...armJoints("left", pose.left), arm: pose.left },
  }));
}

/** Returns the key poses of a signal, with the first and the last by name. */
export function made(key: string, form: Form = "day"): { all: Stance[]; first: Stance; last: Stance } {
  const all = stancesOf(handSignal(key), form);
  const [first, last] = [all[0], all.at(-1)];
  if (!first || !last) throw new Error(`${key} has no key poses`);
  return { all, first, last };
}

export const SHOULDER = BODY.shoulderHeight;
export const HEAD_TOP = 100;
export const CHIN = BODY.chin;
export const WAIST = 62;

/** Returns true if the arm hangs at the giver's side, the hand between hip and knee. */
export function atSide({ wrist, tip }: ArmJoints): boolean {
  return wrist.y < BODY.hip && tip.y > BODY.knee && Math.abs(wrist.x) < 20;
}

/** Returns true if the arm is straight and nearly level. */
export function level(a: ArmJoints): boolean {
  return Math.abs(a.tip.y - a.shoulder.y) < 3 && Math.hypot(a.tip.x - a.shoulder.x, a.tip.z) > 40;
}

/** Returns true if the hands are crossed: each on the other's side. The giver's right is below 0. */
export function crossed({ right, left }: Stance): boolean {
  return right.tip.x > 0 && left.tip.x < 0;
}

export function apart({ right, left }: Stance): number {
  return left.tip.x - right.tip.x;
}
