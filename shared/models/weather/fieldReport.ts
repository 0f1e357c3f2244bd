import { convert } from "../units.ts";
import { readMetar } from "./metar.ts";
import type { ReportFault, ReportPart } from "./reportFault.ts";
import type { ReportedWind } from "./reportGroups.ts";

/** The parts of a pasted report that a start uses. Parts that the report omits are null. */
export interface FieldReport {
  station: string;
  /** Server milliseconds, never after the moment at which the report was read. */
  observedAt: number;
  windKt: number | null;
  /** The gust, or the peak of the past hour where that is higher. */
  gustKt: number | null;
  /** Degrees the wind blows from; null when variable, calm or not given. */
  fromDeg: number | null;
  /** Clockwise limits of a direction that swings, degrees; null when it does not. */
  swing: [from: number, to: number] | null;
  temperatureC: number | null;
  dewPointC: number | null;
  qnhHpa: number | null;
  /** True if it tells of a thunderstorm, or of lightning that is not distant. */
  thunder: boolean;
}

export type ReportRead = { ok: true; value: FieldReport } | { ok: false; fault: ReportFault };

/** Physical range of each part, independent of the type's limits: a value outside it is a misprint. */
const POSSIBLE: readonly [ReportPart, keyof FieldReport, least: number, most: number][] = [
  ["wind", "windKt", 0, 150],
  ["gust", "gustKt", 0, 200],
  ["direction", "fromDeg", 0, 360],
  ["temperature", "temperatureC", -60, 60],
  ["dewPoint", "dewPointC", -80, 60],
  ["qnh", "qnhHpa", 850, 1090],
];

/** Reports carry the time of the full hour and are published some minutes before it (from memory). */
const AHEAD_MS = 10 * 60_000;
const DAY_MS = 86_400_000;

/**
 * Reads a METAR or SPECI at `now`. Refuses a report as old as `mostAge`, and impossible figures, such as a gust not
 * above its wind or a dew point above the temperature. The report names no month: its time is taken as the last such
 * day.
 */
export function readFieldReport(text: string, now: number, mostAge: number): ReportRead {
  const read = readMetar(text);
  if (!read.ok) {
    return { ok: false, fault: read.twice ? { is: "twice", part: read.twice } : { is: "unreadable" } };
  }
  const { station, day, hour, minute, wind, temperatureC, dewPointC, pressure, thunderstorm } = read.value;
  const stamped = lastSuch(day, hour, minute, now + AHEAD_MS);
  if (stamped === null) return { ok: false, fault: { is: "unreadable" } };
  const hPa = pressure ? convert(pressure, "hPa") : null;
  const value: FieldReport = {
    station,
    observedAt: Math.min(stamped, now),
    windKt: wind ? tenth(wind.speedKt) : null,
    gustKt: wind ? strongest(wind) : null,
    fromDeg: wind?.fromDeg ?? null,
    swing: wind?.sector ? [wind.sector.fromDeg, wind.sector.toDeg] : null,
    temperatureC,
    dewPointC,
    qnhHpa: hPa?.ok ? tenth(hPa.value.value) : null,
    thunder: thunderstorm,
  };
  const fault = impossible(value) ?? old(now - value.observedAt, mostAge);
  return fault ? { ok: false, fault } : { ok: true, value };
}

/** A peak that the wind has reached again since is no gust above it. */
function strongest({ speedKt, gustKt, peakKt }: ReportedWind): number | null {
  const peak = peakKt !== null && peakKt > speedKt ? peakKt : null;
  if (gustKt === null && peak === null) return null;
  return tenth(Math.max(gustKt ?? 0, peak ?? 0));
}

const tenth = (value: number) => Math.round(value * 10) / 10;

const old = (age: number, most: number): ReportFault | null =>
  age >= most ? { is: "old", age, most } : null;

function impossible(report: FieldReport): ReportFault | null {
  for (const [part, key, least, most] of POSSIBLE) {
    const value = report[key];
    if (typeof value === "number" && !(value >= least && value <= most))
      return { is: "impossible", part, value };
  }
  const { windKt, gustKt, temperatureC, dewPointC, swing } = report;
  const beyond = swing?.find((degrees) => degrees > 360);
  if (beyond !== undefined) return { is: "impossible", part: "direction", value: beyond };
  if (gustKt !== null && windKt !== null && gustKt <= windKt)
    return { is: "impossible", part: "gust", value: gustKt };
  if (dewPointC !== null && temperatureC !== null && dewPointC > temperatureC)
    return { is: "impossible", part: "dewPoint", value: dewPointC };
  return null;
}

/** Returns the last moment up to `until` with that day of the month and time, UTC; null when no month has it. */
function lastSuch(day: number, hour: number, minute: number, until: number): number | null {
  if (hour > 23 || minute > 59) return null;
  const clock = (hour * 60 + minute) * 60_000;
  const today = Math.floor(until / DAY_MS) * DAY_MS;
  // Two short months can lie between two days with the same number.
  for (let back = 0; back <= 62; back += 1) {
    const at = today - back * DAY_MS + clock;
    if (at <= until && new Date(at).getUTCDate() === day) return at;
  }
  return null;
}
