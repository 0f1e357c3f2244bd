import type { Side as AircraftSide } from "../models/facing.ts";
import { handSignal } from "./all.ts";
import { arm, POINT } from "./arms.ts";
import type { Arm, Pose } from "./pose.ts";
import type { HandSignal, Key } from "./signal.ts";

/** One hand shows no more (UK SI 2007/3468 Sch 8 r.63(5) names the fingers of one hand). */
export const MOST_FINGERS = 5;

/**
 * The giver's left arm pointing at an engine. The giver faces the nose, so port is on the giver's right, and for an
 * engine there the arm leans or reaches across.
 */
const RAISED: Readonly<Record<AircraftSide, Arm>> = {
  starboard: arm([148, 30], [0, 0], POINT),
  centre: arm([166, 60], [0, 0], POINT),
  port: arm([212, 0], [0, 0], POINT),
};
const LEVEL: Readonly<Record<AircraftSide, Arm>> = {
  starboard: arm([90, 12], [0, 0], POINT),
  centre: arm([90, 84], [0, 0], POINT),
  port: arm([92, 128], [28, 90], POINT),
};

/**
 * The signal as it is given for one engine: so many fingers, or the arm that points turned to the engine's side.
 * Null where no gesture exists: engines 6 and up have none by fingers, and the number must be spoken.
 */
export function forEngine(key: string, engine: number | null, side: AircraftSide | null): HandSignal | null {
  const signal = handSignal(key);
  if (engine === null || signal.engine === null) return signal;
  if (signal.engine === "fingers") {
    if (engine > MOST_FINGERS) return null;
    return withPoses(signal, (p) => ({ ...p, right: { ...p.right, hand: { is: "fingers", n: engine } } }));
  }
  if (side === null) return signal;
  const left = (key === "startEngine" ? RAISED : LEVEL)[side];
  return withPoses(signal, (p) => ({ ...p, left }));
}

function withPoses(signal: HandSignal, change: (pose: Pose) => Pose): HandSignal {
  const put = (k: Key): Key => ({ ...k, pose: change(k.pose) });
  const wand = Array.isArray(signal.wand) ? signal.wand.map(put) : signal.wand;
  return { ...signal, day: signal.day.map(put), wand };
}
