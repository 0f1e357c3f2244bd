import { readFieldReport } from "../models/weather/fieldReport.ts";
import type { ReportFault } from "../models/weather/reportFault.ts";
import type { FactOf } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";

export type StationVerdict =
  | { is: "news"; fact: FactOf<"stationRead"> }
  | { is: "known" }
  | { is: "faulty"; fault: ReportFault };

/** Decides a station's report: read as a person's pasted one is read. The same text again is no news. */
export function decideStation(
  state: SessionState,
  metar: string,
  by: { account: string; name: string },
  now: number,
): StationVerdict {
  const read = readFieldReport(metar, now, state.type.timing.weather.value * 1000);
  if (!read.ok) return { is: "faulty", fault: read.fault };
  if (state.station?.metar === metar) return { is: "known" };
  const { observedAt, thunder } = read.value;
  const said = thunder ? { thunder: true as const } : {};
  return { is: "news", fact: { type: "stationRead", ...by, metar, observedAt, ...said } };
}
