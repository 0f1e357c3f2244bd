import { type IMetar, parseMetar, RemarkType } from "metar-taf-parser";
import { found, type Outcome, refused } from "../outcome.ts";

/**
 * The parts of a METAR that a start depends on, each figure in the unit named. A part that the report omits is null.
 */
export interface FieldWeather {
  station: string;
  /** Day of month and UTC time of the report. */
  day: number;
  hour: number;
  minute: number;
  automatic: boolean;
  wind: ReportedWind | null;
  visibility: Visibility | null;
  cavok: boolean;
  temperatureC: number | null;
  dewPointC: number | null;
  /** True where the remarks' T group gave tenths of a degree (FMH-1 12.7.2). */
  tenths: boolean;
  pressure: { value: number; unit: "inHg" | "hPa" } | null;
  clouds: { cover: Cover; baseFt: number | null }[];
  verticalVisibilityFt: number | null;
  /** Present weather as reported, e.g. "FZFG", "VCTS", "-RA". */
  weather: string[];
  thunderstorm: boolean;
}

export interface ReportedWind {
  /** Degrees true the wind blows from; null when variable or calm. */
  fromDeg: number | null;
  variable: boolean;
  /** Clockwise limits of a direction that varies. */
  sector: { fromDeg: number; toDeg: number } | null;
  speedKt: number;
  gustKt: number | null;
}

export interface Visibility {
  metres: number;
  /** "atLeast" for 9999, CAVOK and P6SM; "below" for M1/4SM. */
  bound: "exact" | "atLeast" | "below";
}

const COVERS = ["FEW", "SCT", "BKN", "OVC"] as const;
type Cover = (typeof COVERS)[number];

const METRES_PER_SM = 1609.344;
const KT_PER: Record<string, number> = { KT: 1, MPS: 3600 / 1852, "KM/H": 1000 / 1852 };

/** Reads one METAR or SPECI. Refuses text without a time, and text without any of wind, temperature and pressure. */
export function readMetar(text: string): Outcome<FieldWeather> {
  let metar: IMetar;
  try {
    metar = parseMetar(text.trim().replace(/=$/, ""));
  } catch (error) {
    return refused(error instanceof Error ? error.message : "not a METAR");
  }
  const { station, day, hour, minute } = metar;
  if (day === undefined || hour === undefined || minute === undefined) {
    return refused("no day and time group");
  }
  if (!metar.wind && metar.temperature === undefined && !metar.altimeter) {
    return refused("no wind, temperature or pressure");
  }
  const exact = metar.remarks.find((r) => r.type === RemarkType.HourlyTemperatureDewPoint);
  return found({
    station,
    day,
    hour,
    minute,
    automatic: metar.auto === true,
    wind: readWind(metar, text),
    visibility: readVisibility(metar),
    cavok: metar.cavok === true,
    temperatureC: positiveZero(exact?.temperature ?? metar.temperature),
    dewPointC: positiveZero(exact?.dewPoint ?? metar.dewPoint),
    tenths: exact !== undefined,
    pressure: metar.altimeter ? { value: metar.altimeter.value, unit: metar.altimeter.unit } : null,
    clouds: metar.clouds.flatMap((c) => {
      const cover = COVERS.find((name) => name === c.quantity);
      return cover ? [{ cover, baseFt: c.height ?? null }] : [];
    }),
    verticalVisibilityFt: metar.verticalVisibility ?? null,
    weather: metar.weatherConditions.map(
      (w) => `${w.intensity ?? ""}${w.descriptive ?? ""}${w.phenomenons.join("")}`,
    ),
    thunderstorm: metar.weatherConditions.some(
      (w) => w.descriptive === "TS" || w.phenomenons.some((p) => p === "TS"),
    ),
  });
}

/** Turns -0 into 0: "M00" is read as -0, which prints and compares in unexpected ways. */
function positiveZero(value: number | undefined): number | null {
  return value === undefined ? null : value + 0;
}

/** A wind group of FMH-1 12.6.5, dddff(f)Gff(f): three digits of speed from 100 on. */
const WIND_GROUP = /(?:^|\s)(?:VRB|\d{3})(\d{2,3})(?:G(\d{2,3}))?(?:KT|MPS|KMH|KM\/H)(?=\s|$)/;

/**
 * Takes the figures from the wind group, because the parser reads only two digits of a three-digit speed. Without a
 * group there is no wind.
 */
function readWind({ wind }: IMetar, text: string): ReportedWind | null {
  const group = WIND_GROUP.exec(text.split(/\sRMK\s/)[0] ?? "");
  if (!wind || !group) return null;
  const perUnit = KT_PER[wind.unit];
  if (perUnit === undefined) return null;
  const speed = Number(group[1]);
  const gust = group[2] === undefined ? null : Number(group[2]);
  const variable = wind.direction === "VRB";
  const swings = wind.minVariation !== undefined && wind.maxVariation !== undefined;
  return {
    fromDeg: variable || speed === 0 ? null : (wind.degrees ?? null),
    variable,
    sector: swings ? { fromDeg: wind.minVariation as number, toDeg: wind.maxVariation as number } : null,
    speedKt: speed * perUnit,
    gustKt: gust === null ? null : gust * perUnit,
  };
}

function readVisibility({ visibility }: IMetar): Visibility | null {
  if (!visibility) return null;
  const metres = visibility.unit === "SM" ? visibility.value * METRES_PER_SM : visibility.value;
  const bound = visibility.indicator === "P" ? "atLeast" : visibility.indicator === "M" ? "below" : "exact";
  return { metres, bound };
}
