import { found, type Outcome, refused } from "../outcome.ts";
import { vapourPressureHpa } from "./altitude.ts";

export type IcingRisk = "unlikely" | "possible" | "likely";

/** Share below which carburettor ice is rare, and the warmest air in which it has been met: DOI Safety Alert 11-01. */
const DRY_PERCENT = 25;
const WARMEST_C = (100 - 32) * (5 / 9);
/** Well below freezing, where the air holds too little water. Common practice, no source. */
const COLDEST_C = -10;
/**
 * The simplified field of "serious at descent power" of the authorities' charts, which is idle's. It contains their
 * points at 22/5 and 26/19 °C and the field that the DOI alert calls severe (50 to 70 °F above 60 %).
 */
const SERIOUS = { from: 0, to: 30, percent: 30 };

/** Returns the relative humidity of air, percent. Refused when the dew point is above the temperature. */
export function relativeHumidity(temperatureC: number, dewPointC: number): Outcome<number> {
  if (!Number.isFinite(temperatureC) || !Number.isFinite(dewPointC))
    return refused("temperature and dew point in degC are needed");
  if (dewPointC > temperatureC) return refused("the dew point is above the temperature");
  return found(100 * (vapourPressureHpa(dewPointC) / vapourPressureHpa(temperatureC)));
}

/**
 * Returns the risk of carburettor ice at idle power. It is a coarse reading of the authorities' charts on the side of
 * more risk: the chart itself and the manual decide. Refused as `relativeHumidity` is.
 */
export function carburettorIcing(temperatureC: number, dewPointC: number): Outcome<IcingRisk> {
  const humidity = relativeHumidity(temperatureC, dewPointC);
  if (!humidity.ok) return humidity;
  const percent = humidity.value;
  if (percent < DRY_PERCENT || temperatureC < COLDEST_C || temperatureC > WARMEST_C) return found("unlikely");
  const serious = temperatureC >= SERIOUS.from && temperatureC <= SERIOUS.to && percent >= SERIOUS.percent;
  return found(serious ? "likely" : "possible");
}
