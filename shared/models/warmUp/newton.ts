import { found, type Outcome, outside, refused } from "../outcome.ts";

/**
 * Newton's law for a body that approaches a steady temperature. Temperatures in any one unit, `tau` in any one unit of
 * time.
 */
export interface NewtonCurve {
  start: number;
  steady: number;
  tau: number;
}

const badCurve = ({ start, steady, tau }: NewtonCurve): string | null =>
  outside("start temperature", start, -460, 2000) ??
  outside("steady temperature", steady, -460, 2000) ??
  outside("time constant", tau, 1e-6, 1e9);

/** Returns the temperature at a time: T(t) = T∞ − (T∞ − T0)·e^(−t/τ), t from 0. */
export function temperatureAfter(curve: NewtonCurve, time: number): Outcome<number> {
  const why = badCurve(curve) ?? outside("time", time, 0, 1e12);
  return why
    ? refused(why)
    : found(curve.steady - (curve.steady - curve.start) * Math.exp(-time / curve.tau));
}

/**
 * Returns the time of a temperature: t = τ·ln((T∞ − T0)/(T∞ − T)). Refuses a temperature that the curve does not reach
 * after its start.
 */
export function timeUntil(curve: NewtonCurve, temperature: number): Outcome<number> {
  const why = badCurve(curve);
  if (why) return refused(why);
  const ratio = (curve.steady - curve.start) / (curve.steady - temperature);
  if (!(ratio >= 1 && Number.isFinite(ratio))) return refused(`the curve never passes ${temperature}`);
  return found(curve.tau * Math.log(ratio));
}

/**
 * Returns the curve of a heated body: T∞ = Ta + P/(hA), τ = C/(hA). Heat capacity C in J/K, loss hA in W/K, heater P in
 * W, ambient Ta and start in °C; `tau` is in seconds.
 */
export function heatedCurve(
  body: { joulesPerKelvin: number; wattsPerKelvin: number },
  heaterWatts: number,
  ambient: number,
  start: number,
): Outcome<NewtonCurve> {
  const why =
    outside("heat capacity", body.joulesPerKelvin, 1, 1e8, "J/K") ??
    outside("heat loss", body.wattsPerKelvin, 0.01, 1e5, "W/K") ??
    outside("heater", heaterWatts, 0, 1e6, "W") ??
    outside("ambient temperature", ambient, -90, 70, "degC") ??
    outside("start temperature", start, -90, 200, "degC");
  if (why) return refused(why);
  const steady = ambient + heaterWatts / body.wattsPerKelvin;
  return found({ start, steady, tau: body.joulesPerKelvin / body.wattsPerKelvin });
}
