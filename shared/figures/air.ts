import { convert } from "../models/units.ts";
import { densityAltitudeFt, densityAltitudeMoistFt, stationPressureHpa } from "../models/weather/altitude.ts";
import { beaufort, windOnNose } from "../models/weather/wind.ts";
import { windChillC } from "../models/weather/windChill.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy, type Weather } from "../weather/weather.ts";
import { cautions, type Figure, type FigureInput, notRead, ofType, said } from "./figure.ts";
import { airInput } from "./temperature.ts";

/** Returns every figure of the air: wind on the nose and across, wind force, wind chill, density altitude. */
export function airFigures(state: SessionState): Figure[] {
  const seen = state.weather;
  if (!seen) return [];
  return [...windFigures(state, seen), force(seen), ...chill(state, seen), density(state, seen)];
}

const wind = (seen: Weather) => said("wind", { value: seen.windKt, unit: "kt" }, seenBy(seen));
const planned = (state: SessionState): FigureInput => ({
  name: "heading of the nose, degrees",
  value: state.headingDeg ?? null,
  unit: null,
  source: state.headingDeg === undefined ? "not planned" : "the plan",
  at: null,
});

function windFigures(state: SessionState, seen: Weather): Figure[] {
  const { tailMax, crossMax } = state.type.wind;
  const gust =
    seen.gustKt === null ? notRead("gust") : said("gust", { value: seen.gustKt, unit: "kt" }, seenBy(seen));
  const from: FigureInput =
    seen.fromDeg === null
      ? notRead("wind from")
      : {
          name: "wind from, degrees",
          value: seen.fromDeg,
          unit: null,
          source: `said by ${seenBy(seen).name}`,
          at: seenBy(seen).at,
        };
  const inputs = [wind(seen), gust, from, planned(state)];
  const speed = Math.max(seen.windKt, seen.gustKt ?? 0);
  const known = seen.fromDeg !== null && state.headingDeg !== undefined;
  const on = known ? windOnNose({ fromDeg: seen.fromDeg ?? 0, speed }, state.headingDeg ?? 0) : null;
  const base = { unit: "kt" as const, source: "the gust counts where one is reported" };
  const missing = cautions(!known && "Heading of the nose or direction of the wind is not known.");
  const head: Figure = {
    ...base,
    id: "headWind",
    words: on && on.head < 0 ? "tailWind" : "headWind",
    value: on ? Math.abs(on.head) : null,
    verdict: !on ? "unknown" : !tailMax ? "none" : -on.head > tailMax.value ? "bad" : "good",
    inputs: tailMax ? [...inputs, ofType("most from behind", tailMax)] : inputs,
    equation: "head = V cos(from - heading)",
    ...missing,
  };
  const cross: Figure = {
    ...base,
    id: "crossWind",
    words: on && on.cross < 0 ? "crossWind.port" : "crossWind.starboard",
    value: on ? Math.abs(on.cross) : null,
    verdict: !on ? "unknown" : !crossMax ? "none" : Math.abs(on.cross) > crossMax.value ? "bad" : "good",
    inputs: crossMax ? [...inputs, ofType("most across", crossMax)] : inputs,
    equation: "cross = V sin(from - heading)",
    ...missing,
  };
  return [head, cross];
}

function force(seen: Weather): Figure {
  return {
    id: "beaufort",
    words: "beaufort",
    value: beaufort(seen.windKt),
    unit: null,
    verdict: "none",
    inputs: [wind(seen)],
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
      inputs: [airInput(state), wind(seen)],
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
