import { BRAKES_AND_CHOCKS } from "./brakesAndChocks.ts";
import { EMERGENCY } from "./emergency.ts";
import { MARSHALLING } from "./marshalling.ts";
import { PILOT } from "./pilot.ts";
import { SERVICING } from "./servicing.ts";
import type { HandSignal } from "./signal.ts";

/** Every hand signal, in the order of teaching: start and stop first. */
export const HAND_SIGNALS: readonly HandSignal[] = [
  ...PILOT,
  ...MARSHALLING,
  ...BRAKES_AND_CHOCKS,
  ...SERVICING,
  ...EMERGENCY,
];

/**
 * Returns the signal of a key.
 * @throws RangeError when no signal has that key
 */
export function handSignal(key: string): HandSignal {
  const found = HAND_SIGNALS.find((s) => s.key === key);
  if (!found) throw new RangeError(`no hand signal ${key}`);
  return found;
}
