import { ISA, ISA_EXPONENT } from "./isa.ts";

/** Standard pressure, hPa, and the inch of mercury at 0 °C, hPa (ISO 80000-4 conversions). */
const STANDARD_HPA = 1013.25;
const HPA_PER_INHG = 33.863886;

/** Converts inches of mercury to hectopascals. */
function inHgToHpa(inHg: number): number {
  return inHg * HPA_PER_INHG;
}

/** Returns the pressure altitude, ft, of a station pressure, hPa: 145366.45 (1 - (p / 1013.25)^0.190284) (US NWS). */
export function pressureAltitudeFt(stationHpa: number): number {
  return 145_366.45 * (1 - (stationHpa / STANDARD_HPA) ** 0.190284);
}

/**
 * Returns the pressure altitude by the cockpit rule: elevation + 1000 ft for each inHg by which the altimeter setting
 * is below 29.92. Feet, inHg.
 */
export function pressureAltitudeByRuleFt(elevationFt: number, altimeterInHg: number): number {
  return elevationFt + (29.92 - altimeterInHg) * 1000;
}

/**
 * Returns the station pressure, hPa, of a field whose altimeter setting (QNH) is known. It inverts the altimeter's own
 * law: p = (q^n - p0^n · lapse · H / T0)^(1/n), n = lapse R / g (ISO 2533 troposphere). Elevation in metres.
 */
export function stationPressureHpa(qnhHpa: number, elevationM: number): number {
  const n = 1 / ISA_EXPONENT;
  return (qnhHpa ** n - (STANDARD_HPA ** n * ISA.lapseKPerM * elevationM) / ISA.temperatureK) ** ISA_EXPONENT;
}

/**
 * Returns the density altitude of dry air, ft, by the US NWS form 145442.16 (1 - (17.326 p / (459.67 + T))^0.235), p in
 * inHg, T in °F. The form has an error of 18 ft at standard sea level: report it to the nearest 100 ft, as its source
 * says.
 */
export function densityAltitudeDryFt(stationInHg: number, temperatureF: number): number {
  return 145_442.16 * (1 - ((17.326 * stationInHg) / (459.67 + temperatureF)) ** 0.235);
}

/**
 * Returns the density altitude of dry air, ft, by ISA's own law: 145442.156 (1 - ((p / p0) / (T / T0))^0.234969); hPa,
 * °C.
 */
export function densityAltitudeFt(stationHpa: number, temperatureC: number): number {
  const sigma = stationHpa / STANDARD_HPA / ((temperatureC + 273.15) / ISA.temperatureK);
  return 145_442.156 * (1 - sigma ** 0.234969);
}

/** Density altitude of moist air, with the values behind it. */
export interface MoistDensityAltitude {
  vapourHpa: number;
  virtualK: number;
  feet: number;
}

/** Returns the vapour pressure of saturated air over water, hPa: e = 6.11 · 10^(7.5 T / (237.7 + T)), US NWS. */
export function vapourPressureHpa(temperatureC: number): number {
  return 6.11 * 10 ** ((7.5 * temperatureC) / (237.7 + temperatureC));
}

/**
 * Returns the density altitude of moist air (US NWS): vapour pressure e of the dew point,
 * virtual temperature Tv = T / (1 - (e / p)(1 - 0.622)), then 145366 (1 - (17.326 p / Tr)^0.235) with Tr the virtual
 * temperature in °R by the page's own offset 459.69. Pressure in inHg, temperatures in °C.
 */
export function densityAltitudeMoistFt(
  stationInHg: number,
  temperatureC: number,
  dewPointC: number,
): MoistDensityAltitude {
  const vapourHpa = vapourPressureHpa(dewPointC);
  const virtualK = (temperatureC + 273.15) / (1 - (vapourHpa / inHgToHpa(stationInHg)) * (1 - 0.622));
  const rankine = 1.8 * (virtualK - 273.15) + 32 + 459.69;
  return { vapourHpa, virtualK, feet: 145_366 * (1 - ((17.326 * stationInHg) / rankine) ** 0.235) };
}

/** Returns the standard temperature, °C, at a height in feet by the cockpit rule of 2 °C per 1000 ft. */
export function isaTemperatureByRuleC(heightFt: number): number {
  return 15 - (2 * heightFt) / 1000;
}

/**
 * Returns the density altitude by the cockpit rule: pressure altitude + `ftPerDegree` for each °C above standard.
 * `ftPerDegree` is 120 on the classic computer, and 118.8 where the rule is stated to four figures; the caller chooses.
 */
export function densityAltitudeByRuleFt(
  pressureAltFt: number,
  outsideC: number,
  standardC: number,
  ftPerDegree: number,
): number {
  return pressureAltFt + ftPerDegree * (outsideC - standardC);
}
