import { type IMetar, parseMetar } from "metar-taf-parser";
import { found, type Outcome, refused } from "../outcome.ts";
import {
  pressureOf,
  type ReportedPressure,
  type ReportedTemperature,
  type ReportedWind,
  temperatureOf,
  thunderIn,
  windOf,
} from "./reportGroups.ts";
import type { ReportReading } from "./reportReading.ts";
import { type ReportText, reportText } from "./reportText.ts";

/**
 * The parts of a METAR that a start depends on, each figure in the unit named. A part that the report omits is null.
 */
export interface FieldWeather extends ReportedTemperature {
  station: string;
  /** Day of month and UTC time of the report. */
  day: number;
  hour: number;
  minute: number;
  automatic: boolean;
  wind: ReportedWind | null;
  visibility: Visibility | null;
  cavok: boolean;
  pressure: ReportedPressure | null;
  clouds: { cover: Cover; baseFt: number | null }[];
  verticalVisibilityFt: number | null;
  /** Present weather as reported, e.g. "FZFG", "VCTS", "-RA". */
  weather: string[];
  thunderstorm: boolean;
}

export interface Visibility {
  metres: number;
  /** "atLeast" for 9999, CAVOK and P6SM; "below" for M1/4SM. */
  bound: "exact" | "atLeast" | "below";
}

const COVERS = ["FEW", "SCT", "BKN", "OVC"] as const;
type Cover = (typeof COVERS)[number];

const METRES_PER_SM = 1609.344;

/**
 * Reads the first METAR or SPECI of a text. Refuses text without a time, text without any of wind, temperature and
 * pressure, and a report that says one of them twice and differently.
 *
 * The library reads visibility, clouds and present weather. It is wrong, or silent, on these, which `reportGroups`
 * reads: speeds of three digits, P99KT and ABV, KMH (taken as knots), an unknown direction, 19/// and 09/, small
 * letters, the peak wind, and a second report or forecast behind the first (whose figures replace the first's).
 */
export function readMetar(text: string): ReportReading<FieldWeather> {
  const cut = reportText(text);
  if (!cut.ok) return cut;
  const { station, day, hour, minute, groups, remarks } = cut.value;
  const wind = windOf(groups, remarks);
  const temperature = temperatureOf(groups, remarks);
  const pressure = pressureOf(groups);
  if (!wind.ok) return wind;
  if (!temperature.ok) return temperature;
  if (!pressure.ok) return pressure;
  if (!wind.value && temperature.value.temperatureC === null && !pressure.value) {
    return refused("no wind, temperature or pressure");
  }
  const sky = skyOf(cut.value);
  if (!sky.ok) return sky;
  return found({
    ...{ station, day, hour, minute },
    automatic: groups.includes("AUTO"),
    wind: wind.value,
    ...temperature.value,
    pressure: pressure.value,
    ...sky.value,
    thunderstorm: thunderIn(groups, remarks),
  });
}

type Sky = Pick<FieldWeather, "visibility" | "cavok" | "clouds" | "verticalVisibilityFt" | "weather">;

/** Returns what the library reads of the sky. It is given one report in capitals, without trend and remarks. */
function skyOf({ station, day, hour, minute, groups }: ReportText): Outcome<Sky> {
  const two = (n: number) => String(n).padStart(2, "0");
  let metar: IMetar;
  try {
    metar = parseMetar([station, `${two(day)}${two(hour)}${two(minute)}Z`, ...groups].join(" "));
  } catch (error) {
    return refused(error instanceof Error ? error.message : "not a METAR");
  }
  return found({
    visibility: readVisibility(metar),
    cavok: metar.cavok === true,
    clouds: metar.clouds.flatMap((c) => {
      const cover = COVERS.find((name) => name === c.quantity);
      return cover ? [{ cover, baseFt: c.height ?? null }] : [];
    }),
    verticalVisibilityFt: metar.verticalVisibility ?? null,
    weather: metar.weatherConditions.map(
      (w) => `${w.intensity ?? ""}${w.descriptive ?? ""}${w.phenomenons.join("")}`,
    ),
  });
}

function readVisibility({ visibility }: IMetar): Visibility | null {
  if (!visibility) return null;
  const metres = visibility.unit === "SM" ? visibility.value * METRES_PER_SM : visibility.value;
  const bound = visibility.indicator === "P" ? "atLeast" : visibility.indicator === "M" ? "below" : "exact";
  return { metres, bound };
}
