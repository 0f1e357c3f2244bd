import { readFieldReport } from "../models/weather/fieldReport.ts";
import type { ReportFault } from "../models/weather/reportFault.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { withFlash } from "../session/reports.ts";
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

/**
 * Returns the state after a station's report. It is kept beside the weather that people recorded and answers nothing that
 * a person is asked. Thunder in it counts at once, as thunder in a person's report does.
 */
export function evolveStation(
  state: SessionState,
  { at, seq }: SessionEvent,
  { metar, observedAt, name, thunder }: FactOf<"stationRead">,
): SessionState {
  const warned = thunder ? withFlash(state, { at, miles: null, seq, person: null }) : state;
  return { ...warned, station: { metar, observedAt, at, name } };
}
