import type { Quantity } from "../../protocol/quantity.ts";
import { found, type Outcome, refused } from "../outcome.ts";
import { atLeast } from "../units.ts";

/** Pressure that must be reached within a number of seconds after the engine catches. */
export interface PressureTimer {
  atLeast: Quantity;
  within: { value: number; unit: "s" };
}

/**
 * The two limits of a type: any indication, and normal pressure. Sources disagree on both, so they are data of the
 * type.
 */
export interface PressureProfile {
  firstIndication: PressureTimer;
  normal: PressureTimer;
}

/** Oil pressure read `seconds` after the engine caught. */
export interface PressureReading {
  seconds: number;
  pressure: Quantity;
}

/**
 * `at`: seconds of the first reading that showed the pressure; null until one has. Late means that the engine must be
 * stopped.
 */
export interface PressureVerdict {
  state: "waiting" | "inTime" | "late";
  at: number | null;
}

/**
 * Judges both timers by the readings and the seconds run so far. A pressure read exactly at the time limit is in time.
 * It counts from the reading that shows it, never from a moment between readings, because nobody saw it earlier.
 * Refuses a negative or falling time, a reading after `elapsed`, and a figure whose unit is no unit of pressure.
 */
export function oilPressureVerdicts(
  profile: PressureProfile,
  trace: readonly PressureReading[],
  elapsed: number,
): Outcome<{ firstIndication: PressureVerdict; normal: PressureVerdict }> {
  let before = 0;
  for (const { seconds } of trace) {
    if (!(seconds >= before)) return refused(`a reading at ${seconds} s is out of order`);
    before = seconds;
  }
  if (!(elapsed >= before)) return refused(`a reading at ${before} s is later than the ${elapsed} s run`);
  const firstIndication = verdict(profile.firstIndication, trace, elapsed);
  if (!firstIndication.ok) return firstIndication;
  const normal = verdict(profile.normal, trace, elapsed);
  if (!normal.ok) return normal;
  return found({ firstIndication: firstIndication.value, normal: normal.value });
}

function verdict(
  timer: PressureTimer,
  trace: readonly PressureReading[],
  elapsed: number,
): Outcome<PressureVerdict> {
  for (const { seconds, pressure } of trace) {
    const shown = atLeast(pressure, timer.atLeast);
    if (!shown.ok) return shown;
    if (shown.value) return found({ state: seconds <= timer.within.value ? "inTime" : "late", at: seconds });
  }
  return found({ state: elapsed > timer.within.value ? "late" : "waiting", at: null });
}
