import type { TraceVerdict } from "../models/electrical/groundPowerTrace.ts";
import { type Traced, tracedNow } from "../power/voltTrace.ts";
import type { SessionState } from "../session/state.ts";
import { cautions, type Figure, type FigureVerdict, ofType, ofTypeData } from "./figure.ts";

/**
 * Returns ground power's volts over time against the type's envelope: in limits, or the moment they left the limits.
 */
export function voltTraceFigure(state: SessionState, now: number): Figure | null {
  const traced = tracedNow(state, now);
  const { steadyMin, steadyMax, starting, transients } = state.type.groundPower;
  if (!traced || !starting || !transients) return null;
  const { verdict } = traced;
  const said = verdict.ok ? sayTrace(verdict.value) : null;
  return {
    id: "voltTrace",
    words: "voltTrace",
    value: said?.value ?? null,
    unit: null,
    verdict: said?.verdict ?? "unknown",
    ...(said?.detail ? { detail: said.detail } : {}),
    inputs: [
      ...trace(traced),
      ofType("steady, least", steadyMin),
      ofType("steady, most", steadyMax),
      ofType("starting, least", starting.min),
      ofType("starting, most", starting.max),
      ofTypeData("over the steady band, ms and volts", curve(transients.over), transients.source),
      ofTypeData("under the steady band, ms and volts", curve(transients.under), transients.source),
      ofType("longest time between samples", transients.longestGap),
    ],
    equation: "straight between samples; out of the steady band the curve holds from that moment on",
    source: "form of MIL-STD-704F figures 12 and 13, from memory; the limits are the type's",
    ...cautions(!verdict.ok && noVerdict(traced, verdict.why)),
  };
}

/** Returns a verdict in words, with the moment and the volts that decide it. */
export function sayTrace(found: TraceVerdict): { value: string; verdict: FigureVerdict; detail: string } {
  const second = (ms: number) => `${(ms / 1000).toFixed(3)} s`;
  switch (found.kind) {
    case "within":
      return { value: "in limits", verdict: "good", detail: "" };
    case "left": {
      const side = found.side === "over" ? "over" : "under";
      const volts = `${found.volts.toFixed(1)} V, ${side} ${found.limit.toFixed(1)} V`;
      return { value: `left at ${second(found.at)}`, verdict: "bad", detail: volts };
    }
    case "reversed":
      return {
        value: "REVERSED",
        verdict: "bad",
        detail: `${found.volts.toFixed(1)} V at ${second(found.at)}: output off`,
      };
  }
}

function trace({ from, samples, cranking, by, endedAt, beganAt }: Traced): Figure["inputs"] {
  const given = from === "record" ? `a meter's record given by ${by.name}` : "read one by one";
  const first = samples[0]?.ms ?? 0;
  const seconds = ((samples.at(-1)?.ms ?? 0) - first) / 1000;
  const volts = samples.map((s) => s.volts);
  const least = volts.length === 0 ? null : Math.min(...volts);
  const most = volts.length === 0 ? null : Math.max(...volts);
  return [
    { name: "samples", value: samples.length, unit: "count", source: given, at: endedAt },
    { name: "over", value: seconds, unit: "s", source: given, at: beganAt },
    { name: "lowest", value: least, unit: "V", source: given, at: null },
    { name: "highest", value: most, unit: "V", source: given, at: null },
    ...cranking.map((c) => ({
      name: "cranked",
      value: `${(c.from / 1000).toFixed(1)} to ${(c.to / 1000).toFixed(1)} s`,
      unit: null,
      source: from === "record" ? `said by ${by.name}` : "the starter's own record",
      at: null,
    })),
  ];
}

function noVerdict({ from }: Traced, why: string): string {
  return from === "record"
    ? `No verdict: ${why}.`
    : `No verdict by single readings: ${why}. Enter a meter's record.`;
}

const curve = (points: readonly (readonly [number, number])[]) =>
  points.map(([ms, volts]) => `${ms}: ${volts}`).join(", ");
