import { found, refused } from "../outcome.ts";
import { type ReportReading, twice } from "./reportReading.ts";

/** One report, cut out of what was pasted: its groups in capitals. */
export interface ReportText {
  station: string;
  /** Day of the month and UTC time of the observation. */
  day: number;
  hour: number;
  minute: number;
  /** The groups after the time, up to a trend or the remarks. */
  groups: string[];
  /** The groups after RMK. */
  remarks: string[];
}

const STATION = /^[A-Z][A-Z0-9]{3}$/;
const TIME = /^(\d{2})(\d{2})(\d{2})Z$/;
/** The validity of a forecast, e.g. 2012/2118: a report of the present has none. */
const VALIDITY = /^\d{4}\/\d{4}$/;
/** Words that begin a forecast of the next two hours behind the report (WMO No. 306, FM 15). */
const TREND = new Set(["TEMPO", "BECMG", "NOSIG", "INTER"]);
/** Words that may stand between the heading and its report, or before its station. */
const LABEL = new Set(["METAR", "SPECI", "COR", "TAF", "AMD"]);

/**
 * Returns the first report in a pasted text (WMO No. 306, FM 15; FMH-1 chapter 12). It ends at "=", at the next
 * report and at a forecast, so that no figure of another report gets in. Refuses a text without station and time, a
 * forecast, and two reports of one station of which the second is the newer: the first would be read in its place.
 */
export function reportText(pasted: string): ReportReading<ReportText> {
  const words = pasted
    .toUpperCase()
    .replaceAll("=", " = ")
    .split(/\s+/)
    .filter((w) => w !== "");
  const starts = words.flatMap((_, i) => (headingAt(words, i) ? [i] : []));
  const start = starts[0];
  const heading = start === undefined ? null : headingAt(words, start);
  if (start === undefined || !heading) return refused("no station with a day and time");
  const own = words.slice(start + heading.length);
  const ends = [
    own.indexOf("="),
    own.indexOf("TAF"),
    ...starts.slice(1).map((s) => s - start - heading.length),
  ];
  const end = Math.min(own.length, ...ends.filter((e) => e >= 0));
  const mine = own.slice(0, end).filter((w) => !LABEL.has(w));
  if (words.slice(0, start).includes("TAF") || VALIDITY.test(mine[0] ?? "")) {
    return refused("a forecast, not a report of now");
  }
  const newer = starts.slice(1).some((s) => {
    const other = headingAt(words, s);
    const forecast = VALIDITY.test(words[s + (other?.length ?? 0)] ?? "") || words[s - 1] === "TAF";
    return other?.station === heading.station && !forecast && isNewer(other, heading);
  });
  if (newer) return twice("observed", "two reports of one station, the newer one last");
  const { station, day, hour, minute } = heading;
  const remark = mine.indexOf("RMK");
  const body = remark < 0 ? mine : mine.slice(0, remark);
  const trend = body.findIndex((w) => TREND.has(w));
  return found({
    ...{ station, day, hour, minute },
    groups: joined(trend < 0 ? body : body.slice(0, trend)),
    remarks: remark < 0 ? [] : mine.slice(remark + 1),
  });
}

interface Heading {
  station: string;
  day: number;
  hour: number;
  minute: number;
  /** Words that it takes. */
  length: number;
}

/** Returns the heading that begins at a word: a station, perhaps COR or AMD, and a time. */
function headingAt(words: readonly string[], i: number): Heading | null {
  const station = words[i] ?? "";
  if (!STATION.test(station) || LABEL.has(station)) return null;
  const between = words[i + 1] === "COR" || words[i + 1] === "AMD" ? 1 : 0;
  const time = TIME.exec(words[i + 1 + between] ?? "");
  if (!time) return null;
  return {
    station,
    day: Number(time[1]),
    hour: Number(time[2]),
    minute: Number(time[3]),
    length: 2 + between,
  };
}

/** Days of a month that are farther apart than this lie in two months. */
const HALF_MONTH = 15;

function isNewer(a: Heading, b: Heading): boolean {
  const minutes = ({ day, hour, minute }: Heading) => (day * 24 + hour) * 60 + minute;
  const apart = minutes(a) - minutes(b);
  const turned = Math.abs(a.day - b.day) > HALF_MONTH;
  return turned ? apart < 0 : apart > 0;
}

/** Joins a wind group whose unit was set apart: "24008 KT". */
function joined(groups: readonly string[]): string[] {
  const out: string[] = [];
  for (const group of groups) {
    const last = out.at(-1);
    const unit = group === "KT" || group === "MPS" || group === "KMH";
    if (unit && last !== undefined && /^(\d{5,6}|VRB\d{2,3})(G\d{2,3})?$/.test(last))
      out[out.length - 1] = last + group;
    else out.push(group);
  }
  return out;
}
