import { found, type Outcome, outside, refused } from "../outcome.ts";
import { allowedAt, type Breakpoint, badEnvelope, type Envelope } from "./envelope.ts";

/** Bus volts at a moment, ms. */
export interface VoltSample {
  ms: number;
  volts: number;
}

/** Start and end of cranking, ms. The starting band holds from one to the other, both included. */
export interface Cranking {
  from: number;
  to: number;
}

/**
 * In limits throughout; or the first moment out of limits, with the volts and the limit; or reversed polarity, which is
 * reported first wherever it is in the trace.
 */
export type TraceVerdict =
  | { kind: "within" }
  | { kind: "left"; at: number; side: "over" | "under"; volts: number; limit: number }
  | { kind: "reversed"; at: number; volts: number };

/** Volts beyond which a 28 V d.c. reading is the meter's fault, not the source's. */
const PLAUSIBLE = 100;
/** A meter on dead leads may show a little below zero. */
const ZERO = -1;
/** A smaller difference of volts is rounding: a source on the limit is within it. */
const SAME = 1e-9;

/**
 * Judges a trace against an envelope. Volts are linear between samples. When the volts leave the steady band, a clock
 * starts at the crossing, and the transient curve of that side holds until they are back in the band. A new excursion
 * starts a new clock. Ripple and spikes are not judged: give a trace filtered to the source's definition of steady
 * state.
 *
 * Refuses fewer than two samples, times that do not rise, a gap longer than the envelope allows, volts beyond ±100, and
 * faulty envelope data.
 */
export function judgeTrace(
  trace: readonly VoltSample[],
  cranking: readonly Cranking[],
  envelope: Envelope,
): Outcome<TraceVerdict> {
  const why = badEnvelope(envelope) ?? badTrace(trace, envelope.longestGap);
  if (why) return refused(why);
  const reversed = trace.find((s) => s.volts < ZERO);
  if (reversed) return found({ kind: "reversed", at: reversed.ms, volts: reversed.volts });
  const edges = cranking.flatMap((c) => [c.from, c.to]);
  /** Side and start of the present excursion from the steady band. */
  let out: Excursion | null = null;
  for (const [a, b] of cutAt(trace, edges)) {
    const middle = (a.ms + b.ms) / 2;
    const starting = cranking.some((c) => middle >= c.from && middle <= c.to);
    const judged: Judged = starting
      ? { left: leftBand(a, b, envelope.starting), out: null }
      : steadyPiece(a, b, out, envelope);
    if (judged.left) return found(judged.left);
    out = judged.out;
  }
  return found({ kind: "within" });
}

type Side = "over" | "under";
interface Excursion {
  side: Side;
  since: number;
}
type Left = Extract<TraceVerdict, { kind: "left" }>;
interface Judged {
  left: Left | null;
  out: Excursion | null;
}

function badTrace(trace: readonly VoltSample[], longestGap: number): string | null {
  if (trace.length < 2) return "a trace has at least two samples";
  const longest = longestGap + roundingOf(trace, longestGap) + SAME;
  for (const [i, s] of trace.entries()) {
    const why = outside("volts", s.volts, -PLAUSIBLE, PLAUSIBLE, "V");
    if (why) return why;
    const before = trace[i - 1];
    if (!before) continue;
    if (!(s.ms > before.ms)) return `the time after ${before.ms} ms does not rise`;
    if (s.ms - before.ms > longest) return `nothing is known between ${before.ms} and ${s.ms} ms`;
  }
  return null;
}

/** Steps to which meters print their times, ms, coarsest first. */
const PRINTED_MS = [10, 1, 0.1, 0.01] as const;
/** Rounding may not lengthen a gap by more than this part of it: a coarser print hides what happened. */
const MOST_ROUNDING = 1 / 5;

/**
 * Returns by how much rounding may lengthen a gap, ms: the step to which this meter prints its times. A meter of 20
 * samples a second that prints hundredths shows 50 ms as 40 or 60.
 */
function roundingOf(trace: readonly VoltSample[], longestGap: number): number {
  const printed = PRINTED_MS.find((step) =>
    trace.every(({ ms }) => Math.abs(ms / step - Math.round(ms / step)) < 1e-6),
  );
  return Math.min(printed ?? SAME, longestGap * MOST_ROUNDING);
}

/**
 * Returns pairs of neighbouring samples, split where cranking begins or ends, so that one band holds over each pair.
 */
function cutAt(trace: readonly VoltSample[], cuts: readonly number[]): [VoltSample, VoltSample][] {
  const pieces: [VoltSample, VoltSample][] = [];
  for (let i = 1; i < trace.length; i += 1) {
    let a = trace[i - 1] as VoltSample;
    const b = trace[i] as VoltSample;
    for (const ms of cuts.filter((c) => c > a.ms && c < b.ms).sort((x, y) => x - y)) {
      if (ms === a.ms) continue;
      const cut = { ms, volts: voltsAt(a, b, ms) };
      pieces.push([a, cut]);
      a = cut;
    }
    pieces.push([a, b]);
  }
  return pieces;
}

function voltsAt(a: VoltSample, b: VoltSample, ms: number): number {
  return a.volts + ((b.volts - a.volts) * (ms - a.ms)) / (b.ms - a.ms);
}

/** Returns the moment between a and b when the volts reach `level`. */
function momentOf(a: VoltSample, b: VoltSample, level: number): number {
  return b.volts === a.volts ? a.ms : a.ms + ((b.ms - a.ms) * (level - a.volts)) / (b.volts - a.volts);
}

/** Returns the first moment at which a straight piece is beyond a constant band, or null. */
function leftBand(a: VoltSample, b: VoltSample, band: { min: number; max: number }): Left | null {
  for (const [side, limit, sign] of [
    ["over", band.max, 1],
    ["under", band.min, -1],
  ] as const) {
    if ((a.volts - limit) * sign > SAME) return { kind: "left", at: a.ms, side, volts: a.volts, limit };
    if ((b.volts - limit) * sign > SAME) {
      return { kind: "left", at: momentOf(a, b, limit), side, volts: limit, limit };
    }
  }
  return null;
}

/** Judges a straight piece outside cranking. Takes the running excursion and returns it as it is afterwards. */
function steadyPiece(a: VoltSample, b: VoltSample, running: Excursion | null, envelope: Envelope): Judged {
  const { min, max } = envelope.steady;
  const cuts = [min, max].map((level) => momentOf(a, b, level)).filter((ms) => ms > a.ms && ms < b.ms);
  let out = running;
  for (const [p, q] of cutAt([a, b], cuts)) {
    const middle = (p.volts + q.volts) / 2;
    const side: Side | null = middle > max ? "over" : middle < min ? "under" : null;
    if (!side) {
      out = null;
      continue;
    }
    if (out?.side !== side) out = { side, since: p.ms };
    const left = leftCurve(p, q, out, side === "over" ? envelope.over : envelope.under);
    if (left) return { left, out };
  }
  // A sample back on the band's edge ends the excursion.
  if (b.volts >= min && b.volts <= max) out = null;
  return { left: null, out };
}

/** Returns the first moment at which a straight piece of an excursion is beyond its transient curve, or null. */
function leftCurve(a: VoltSample, b: VoltSample, out: Excursion, points: readonly Breakpoint[]): Left | null {
  const sign = out.side === "over" ? 1 : -1;
  const knots = points.map(([ms]) => out.since + ms);
  for (const [p, q] of cutAt([a, b], knots)) {
    const limits = [p, q].map((s) => allowedAt(points, s.ms - out.since));
    const [from = 0, to = 0] = [p, q].map((s, i) => (s.volts - (limits[i] ?? 0)) * sign);
    if (from > SAME) return { kind: "left", at: p.ms, side: out.side, volts: p.volts, limit: limits[0] ?? 0 };
    if (to > SAME) {
      const at = p.ms + ((q.ms - p.ms) * Math.max(0, -from)) / (to - from);
      const limit = allowedAt(points, at - out.since);
      return { kind: "left", at, side: out.side, volts: limit, limit };
    }
  }
  return null;
}
