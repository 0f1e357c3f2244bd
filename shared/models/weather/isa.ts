import { found, type Outcome, refused } from "../outcome.ts";

/** Still air at one height. */
export interface Air {
  temperatureK: number;
  pressurePa: number;
  densityKgM3: number;
  soundMs: number;
}

/** ISO 2533:1975 constants, SI. Heights are geopotential. */
export const ISA = {
  temperatureK: 288.15,
  pressurePa: 101_325,
  lapseKPerM: 0.0065,
  gravityMs2: 9.80665,
  gasConstant: 287.05287,
  heatRatio: 1.4,
  tropopauseM: 11_000,
} as const;

/** Exponent g / (lapse · R) of the troposphere's pressure law, 5.2559. */
export const ISA_EXPONENT = ISA.gravityMs2 / (ISA.lapseKPerM * ISA.gasConstant);

const LOWEST_M = -2000;
const HIGHEST_M = 20_000;

/**
 * Returns the International Standard Atmosphere (ISO 2533:1975) at geopotential metres, -2000 to 20 000. Below 11 km: T
 * = T0 - 6.5 K/km · H, p = p0 (T / T0)^(g / (lapse R)). Above: T constant, p = p11 exp(-g (H - H11) / (R T11)). Density
 * p / (R T), speed of sound sqrt(1.4 R T).
 */
export function isa(geopotentialM: number): Outcome<Air> {
  if (!(geopotentialM >= LOWEST_M && geopotentialM <= HIGHEST_M)) {
    return refused(`height must lie between ${LOWEST_M} and ${HIGHEST_M} m`);
  }
  const below = Math.min(geopotentialM, ISA.tropopauseM);
  const above = geopotentialM - below;
  const temperatureK = ISA.temperatureK - ISA.lapseKPerM * below;
  const pressurePa =
    ISA.pressurePa *
    (temperatureK / ISA.temperatureK) ** ISA_EXPONENT *
    Math.exp((-ISA.gravityMs2 * above) / (ISA.gasConstant * temperatureK));
  const densityKgM3 = pressurePa / (ISA.gasConstant * temperatureK);
  const soundMs = Math.sqrt(ISA.heatRatio * ISA.gasConstant * temperatureK);
  return found({ temperatureK, pressurePa, densityKgM3, soundMs });
}
