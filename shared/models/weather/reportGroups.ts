import { found } from "../outcome.ts";
import { convert } from "../units.ts";
import { type ReportReading, twice } from "./reportReading.ts";

/** The wind of a report, speeds in knots. */
export interface ReportedWind {
  /** Degrees true the wind blows from; null when it is variable, calm or not given. */
  fromDeg: number | null;
  variable: boolean;
  /** Clockwise limits of a direction that varies. */
  sector: { fromDeg: number; toDeg: number } | null;
  speedKt: number;
  gustKt: number | null;
  /** The highest wind since the last hourly report, from the remarks; null where none is given. */
  peakKt: number | null;
  /** True where a speed is only known to be above the figure of its group: its next whole unit is taken. */
  above: boolean;
}

export interface ReportedTemperature {
  temperatureC: number | null;
  dewPointC: number | null;
  /** True where the remarks' T group gave tenths of a degree. */
  tenths: boolean;
}

export interface ReportedPressure {
  value: number;
  unit: "inHg" | "hPa";
}

const KT_PER: Record<string, number> = { KT: 1, MPS: 3600 / 1852, KMH: 1000 / 1852, "KM/H": 1000 / 1852 };

/**
 * dddff(f)Gff(f) and a unit (FMH-1 12.6.5, WMO No. 306 FM 15). P and ABV say that a speed is above its figure
 * (P99KT, P49MPS, P199KMH); slashes stand for what was not measured.
 */
const WIND = /^(VRB|\d{3}|\/\/\/)?(P|ABV)?(\d{2,3}|\/\/)(?:G(P|ABV)?(\d{2,3}|\/\/))?(KT|MPS|KMH|KM\/H)$/;
const SECTOR = /^(\d{3})V(\d{3})$/;
/** PK WND dddff(f)/(hh)mm (FMH-1 12.7.1.d), always in knots. */
const PEAK = /^\d{3}(\d{2,3})\/(?:\d{2})?\d{2}$/;

/** Returns the wind; null where the report gives no speed. Refuses two winds. */
export function windOf(
  groups: readonly string[],
  remarks: readonly string[],
): ReportReading<ReportedWind | null> {
  const winds = groups.filter((g) => WIND.test(g));
  if (new Set(winds).size > 1) return twice("wind", "two winds");
  const match = WIND.exec(winds[0] ?? "");
  const perUnit = KT_PER[match?.[6] ?? ""];
  if (!match || perUnit === undefined || match[3] === "//") return found(null);
  const [, from, moreThan, speed = "", gustMoreThan, gust] = match;
  const knots = (figure: string, above: string | undefined) =>
    (Number(figure) + (above === undefined ? 0 : 1)) * perUnit;
  const swing = groups.map((g) => SECTOR.exec(g)).find((m) => m !== null);
  const measured = gust === undefined || gust === "//" ? null : knots(gust, gustMoreThan);
  const calm = Number(speed) === 0 && from === "000";
  // A wind from the north is 360: 000 belongs to a calm alone.
  const given = from !== undefined && /^\d+$/.test(from) && from !== "000";
  return found({
    fromDeg: given ? Number(from) : null,
    variable: from === "VRB",
    sector: swing && !calm ? { fromDeg: Number(swing[1]), toDeg: Number(swing[2]) } : null,
    speedKt: knots(speed, moreThan),
    gustKt: measured,
    peakKt: peakOf(remarks),
    above: moreThan !== undefined || gustMoreThan !== undefined,
  });
}

function peakOf(remarks: readonly string[]): number | null {
  const at = remarks.findIndex((w, i) => w === "PK" && remarks[i + 1] === "WND");
  const match = at < 0 ? null : PEAK.exec(remarks[at + 2] ?? "");
  return match ? Number(match[1]) : null;
}

/** Whole degrees with M for minus; slashes or nothing where a part was not measured (FMH-1 12.6.10). */
const TEMPERATURE = /^(M?\d{2}|\/\/|XX)\/(M?\d{2}|\/\/|XX)?$/;
/** Tenths: T, sign (0 plus, 1 minus), three digits, and the same for the dew point (FMH-1 12.7.2.d). */
const TENTHS = /^T([01])(\d{3})(?:([01])(\d{3}))?$/;
/** A whole degree is rounded from its tenths: farther apart, one of the two belongs to another report. */
const ROUNDED = 1;

/** Returns temperature and dew point, °C. Refuses two temperatures, and tenths that contradict the whole degrees. */
export function temperatureOf(
  groups: readonly string[],
  remarks: readonly string[],
): ReportReading<ReportedTemperature> {
  const read = groups.filter((g) => TEMPERATURE.test(g));
  if (new Set(read).size > 1) return twice("temperature", "two temperatures");
  const match = TEMPERATURE.exec(read[0] ?? "");
  const whole = { temperatureC: degrees(match?.[1]), dewPointC: degrees(match?.[2]) };
  const exact = remarks.map((g) => TENTHS.exec(g)).find((m) => m !== null);
  if (!exact) return found({ ...whole, tenths: false });
  const fine = { temperatureC: tenth(exact[1], exact[2]), dewPointC: tenth(exact[3], exact[4]) };
  for (const part of ["temperatureC", "dewPointC"] as const) {
    const [rough, exactly] = [whole[part], fine[part]];
    if (rough !== null && exactly !== null && Math.abs(rough - exactly) > ROUNDED) {
      return twice("temperature", `${rough} and ${exactly} degC in one report`);
    }
  }
  return found({
    temperatureC: fine.temperatureC,
    dewPointC: fine.dewPointC ?? whole.dewPointC,
    tenths: true,
  });
}

/** M00 is a plain zero, not the minus zero of arithmetic. */
function degrees(group: string | undefined): number | null {
  if (group === undefined || !/\d/.test(group)) return null;
  const value = Number(group.replace("M", ""));
  return group.startsWith("M") && value !== 0 ? -value : value;
}

function tenth(sign: string | undefined, digits: string | undefined): number | null {
  if (sign === undefined || digits === undefined) return null;
  const value = Number(digits) / 10;
  return sign === "1" && value !== 0 ? -value : value;
}

/** Inches in hundredths, or whole hectopascals (FMH-1 12.6.11, WMO No. 306 FM 15). */
const PRESSURE = /^(A|Q)(\d{4})$/;
/** Two units of one pressure differ by their rounding. */
const SAME_HPA = 1.5;

/** Returns the pressure; the first one where a report gives it in both units. Refuses two that differ. */
export function pressureOf(groups: readonly string[]): ReportReading<ReportedPressure | null> {
  const read = groups.flatMap((g): ReportedPressure[] => {
    const match = PRESSURE.exec(g);
    if (!match) return [];
    const figure = Number(match[2]);
    return [match[1] === "A" ? { value: figure / 100, unit: "inHg" } : { value: figure, unit: "hPa" }];
  });
  const [first, ...others] = read;
  if (!first) return found(null);
  const hPa = convert(first, "hPa");
  for (const other of others) {
    const also = convert(other, "hPa");
    if (!hPa.ok || !also.ok || Math.abs(hPa.value.value - also.value.value) > SAME_HPA) {
      return twice("qnh", "two pressures");
    }
  }
  return found(first);
}

/** Present weather with a thunderstorm: TS alone or with what falls from it, here or in the vicinity. */
const THUNDERSTORM = /^(?:\+|-|VC)?TS[A-Z]{0,8}$/;

/**
 * Returns true if the report tells of a thunderstorm now, or of lightning that is not distant (beyond 10 miles:
 * FMH-1 12.7.1.j). A thunderstorm of the past hour (RETS) or of the trend does not count.
 */
export function thunderIn(groups: readonly string[], remarks: readonly string[]): boolean {
  if (groups.some((g) => THUNDERSTORM.test(g))) return true;
  const flash = remarks.findIndex((w) => /^LTG[A-Z]*$/.test(w));
  return flash >= 0 && remarks[flash + 1] !== "DSNT";
}
