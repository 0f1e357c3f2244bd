import { found, type Outcome, refused } from "../outcome.ts";

/**
 * Returns the wind chill, °F: 35.74 + 0.6215 T - 35.75 V^0.16 + 0.4275 T V^0.16 (US NWS 2001, with Environment Canada).
 * T air temperature in °F, at most 50; V wind at 10 m (33 ft) in statute miles per hour, at least 3.
 */
export function windChillF(temperatureF: number, windMph: number): Outcome<number> {
  if (!(temperatureF <= 50 && temperatureF >= -130))
    return refused(`wind chill is defined up to 50 degF, not at ${temperatureF} degF`);
  if (!(windMph >= 3 && windMph < 300))
    return refused(`wind chill is defined from 3 mph, not at ${windMph} mph`);
  const v = windMph ** 0.16;
  return found(35.74 + 0.6215 * temperatureF - 35.75 * v + 0.4275 * temperatureF * v);
}

/**
 * Returns the wind chill, °C: 13.12 + 0.6215 T - 11.37 V^0.16 + 0.3965 T V^0.16 (same source). T in °C, at most 10; V
 * in km/h, at least 4.8 (3 mph).
 */
export function windChillC(temperatureC: number, windKmh: number): Outcome<number> {
  if (!(temperatureC <= 10 && temperatureC >= -90))
    return refused(`wind chill is defined up to 10 degC, not at ${temperatureC} degC`);
  if (!(windKmh >= 4.8 && windKmh < 500))
    return refused(`wind chill is defined from 4.8 km/h, not at ${windKmh} km/h`);
  const v = windKmh ** 0.16;
  return found(13.12 + 0.6215 * temperatureC - 11.37 * v + 0.3965 * temperatureC * v);
}
