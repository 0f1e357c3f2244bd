import { found, type Outcome } from "../outcome.ts";
import { fitWarmUp, type WarmUpReading } from "./fit.ts";
import { type TimeLeft, timeLeft } from "./predict.ts";

/**
 * Returns the time left, from the last reading, until a body that cools is at `atMost`; readings and `atMost` in one
 * unit. By Newton's law its fall since the first reading rises as a warm-up does, so the same fit serves. Null when the
 * readings do not determine it: fewer than five, no fall, or it may level off above. Refuses what `fitWarmUp` refuses.
 */
export function coolDownLeft(readings: readonly WarmUpReading[], atMost: number): Outcome<TimeLeft | null> {
  const first = readings[0];
  if (!first) return found(null);
  const fallen = readings.map(({ seconds, temperature }) => ({
    seconds,
    temperature: first.temperature - temperature,
  }));
  const fit = fitWarmUp(fallen);
  if (!fit.ok) return fit;
  return found(fit.value ? timeLeft(fit.value, first.temperature - atMost) : null);
}
