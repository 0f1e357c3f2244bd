import { windWithinLimits } from "../conditions/surroundings.ts";
import { readFieldReport } from "../models/weather/fieldReport.ts";
import type { SessionState } from "../session/state.ts";
import type { StationReport, Weather } from "./weather.ts";

export interface StationNow {
  report: StationReport;
  /** The air that it tells of; null when it gives no wind or cannot be read any more. */
  air: Weather | null;
  /** The wind, judged by the condition that judges a person's report. */
  verdict: "within" | "over" | "stale" | "unknown";
}

/** Returns the last report of the field's own station, judged as a person's report is judged; null without one. */
export function stationNow(state: SessionState, now: number): StationNow | null {
  const { station: report, type } = state;
  if (!report) return null;
  // Its age is judged below: here it is read as it was when it came.
  const read = readFieldReport(report.metar, report.at, Number.POSITIVE_INFINITY);
  const air = read.ok ? airOf(report, read.value) : null;
  const old = now - report.observedAt >= type.timing.weather.value * 1000;
  if (old || !air) return { report, air, verdict: old ? "stale" : "unknown" };
  const found = windWithinLimits.find({ ...state, weather: air }, 0, now).is;
  const verdict = ({ yes: "within", no: "over", stale: "stale", unknown: "unknown" } as const)[found];
  return { report, air, verdict };
}

type Read = Extract<ReturnType<typeof readFieldReport>, { ok: true }>["value"];

function airOf({ observedAt, at, name }: StationReport, read: Read): Weather | null {
  const { windKt, gustKt, fromDeg, temperatureC, qnhHpa, swing } = read;
  if (windKt === null) return null;
  const by = { at, seq: 0, post: null, name, seenFrom: null };
  return { by, observedAt, windKt, gustKt, fromDeg, temperatureC, qnhHpa, ...(swing ? { swing } : {}) };
}
