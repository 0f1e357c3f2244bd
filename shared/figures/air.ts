import { convert } from "../models/units.ts";
import { densityAltitudeFt, densityAltitudeMoistFt, stationPressureHpa } from "../models/weather/altitude.ts";
import { carburettorIcing, relativeHumidity } from "../models/weather/carburettorIcing.ts";
import { beaufort } from "../models/weather/wind.ts";
import { windChillC } from "../models/weather/windChill.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy, type Weather } from "../weather/weather.ts";
import { cautions, type Figure, notRead, said } from "./figure.ts";
import { noseWindFigures, windInput } from "./noseWind.ts";
import { airInput } from "./temperature.ts";

/** Returns every figure of the air: wind on the nose and across, wind force, wind chill, density altitude. */
export function airFigures(state: SessionState): Figure[] {
  const seen = state.weather;
  if (!seen) return [];
  return [
    ...noseWindFigures(state, seen),
    force(seen),
    ...chill(state, seen),
    density(state, seen),
    ...icing(state, seen),
  ];
}

function force(seen: Weather): Figure {
  return {
    id: "beaufort",
    words: "beaufort",
    value: beaufort(seen.windKt),
    unit: null,
    verdict: "none",
    inputs: [windInput(seen)],
    equation: "whole knots: 1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64 begin forces 1 to 12",
    source: "Beaufort scale as the WMO prints it",
  };
}

function chill(state: SessionState, seen: Weather): Figure[] {
  const kmh = convert({ value: seen.windKt, unit: "kt" }, "km/h");
  if (seen.temperatureC === null || !kmh.ok) return [];
  const felt = windChillC(seen.temperatureC, kmh.value.value);
  // The formula is not defined for every temperature and wind.
  if (!felt.ok) return [];
  return [
    {
      id: "windChill",
      words: "windChill",
      value: felt.value,
      unit: "degC",
      verdict: felt.value <= FROSTBITE_C ? "caution" : "none",
      inputs: [airInput(state), windInput(seen)],
      equation: "13.12 + 0.6215 T - 11.37 V^0.16 + 0.3965 T V^0.16, V in km/h",
      source: "US NWS and Environment Canada, 2001",
      ...cautions(
        felt.value <= FROSTBITE_C && "Bare skin freezes within half an hour (US NWS: from -18 degF).",
      ),
    },
  ];
}

/** -18 degF. */
const FROSTBITE_C = (-18 - 32) * (5 / 9);

function density(state: SessionState, seen: Weather): Figure {
  const { qnhHpa, temperatureC, dewPointC } = seen;
  const elevation = state.elevationFt;
  const base = {
    id: "densityAltitude",
    words: "densityAltitude",
    unit: "ft" as const,
    source: "ISO 2533 pressure law; US NWS forms",
    inputs: [
      qnhHpa === null ? notRead("QNH") : said("QNH", { value: qnhHpa, unit: "hPa" as const }, seenBy(seen)),
      airInput(state),
      dewPointC === undefined
        ? notRead("dew point")
        : said("dew point", { value: dewPointC, unit: "degC" as const }, seenBy(seen)),
      {
        name: "field's height",
        value: elevation ?? null,
        unit: "ft" as const,
        source: elevation === undefined ? "not planned" : "the plan",
        at: null,
      },
    ],
  };
  const equation = "145442 (1 - ((p / p0) / (T / T0))^0.235)";
  if (qnhHpa === null || temperatureC === null || elevation === undefined) {
    return {
      ...base,
      equation,
      value: null,
      verdict: "unknown",
      ...cautions("QNH, temperature and the field's height are all needed."),
    };
  }
  const hPa = stationPressureHpa(qnhHpa, elevation * 0.3048);
  const inHg = convert({ value: hPa, unit: "hPa" }, "inHg");
  const moist =
    dewPointC !== undefined && inHg.ok
      ? densityAltitudeMoistFt(inHg.value.value, temperatureC, dewPointC)
      : null;
  return {
    ...base,
    equation: moist ? "virtual temperature for T, then 145366 (1 - (17.326 p / Tr)^0.235)" : equation,
    value: moist ? moist.feet : densityAltitudeFt(hPa, temperatureC),
    verdict: "none",
    ...cautions(!moist && "Of dry air: no dew point was read."),
  };
}

/** Returns the risk of carburettor ice at idle; nothing where no dew point was read. */
function icing(state: SessionState, seen: Weather): Figure[] {
  const { temperatureC, dewPointC } = seen;
  if (temperatureC === null || dewPointC === undefined) return [];
  const risk = carburettorIcing(temperatureC, dewPointC);
  const humidity = relativeHumidity(temperatureC, dewPointC);
  return [
    {
      id: "carburettorIcing",
      words: risk.ok ? `icing.${risk.value}` : "icing.notKnown",
      value: humidity.ok ? humidity.value : null,
      unit: "percent",
      verdict: !risk.ok ? "unknown" : risk.value === "unlikely" ? "good" : "caution",
      inputs: [airInput(state), said("dew point", { value: dewPointC, unit: "degC" }, seenBy(seen))],
      equation:
        "relative humidity 100 e(dew point) / e(temperature), e = 6.11 · 10^(7.5 T / (237.7 + T)) hPa",
      source: "DOI Safety Alert 11-01; simplified from the charts of FAA SAIB CE-09-35 and the CAA",
      ...cautions(
        !risk.ok && risk.why,
        "A coarse reading: the chart and the manual decide.",
        risk.ok &&
          risk.value !== "unlikely" &&
          "At idle: carburettor air as the manual says before more power; cold for the start itself.",
      ),
    },
  ];
}
