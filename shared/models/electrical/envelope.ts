import { outside } from "../outcome.ts";

/** Lowest and highest volts allowed without a time limit. */
export interface VoltBand {
  min: number;
  max: number;
}

/**
 * Milliseconds since the volts left the steady band, and the volts allowed at that time. Linear between breakpoints;
 * the last one holds from then on.
 */
export type Breakpoint = readonly [ms: number, volts: number];

/**
 * Limits of a power source, as data with a source: the steady bands, and how far and how long a transient may exceed
 * the normal band. While the engine is cranked the starting band holds instead, and no transient may exceed it.
 */
export interface Envelope {
  steady: VoltBand;
  starting: VoltBand;
  over: readonly Breakpoint[];
  under: readonly Breakpoint[];
  /** Longest time between two samples, ms: a longer gap would hide what happened in it. */
  longestGap: number;
}

/** Returns the fault in an envelope's data, or null. Both transients must start at 0 ms and end on the steady band. */
export function badEnvelope(envelope: Envelope): string | null {
  const { steady, starting, over, under, longestGap } = envelope;
  if (!(steady.min < steady.max && starting.min < starting.max))
    return "a band's lowest volts are below its highest";
  const why = outside("longest gap", longestGap, 0.001, 60_000, "ms");
  if (why) return why;
  for (const [side, points, end] of [
    ["over", over, steady.max],
    ["under", under, steady.min],
  ] as const) {
    if (points[0]?.[0] !== 0) return `the ${side}-voltage transient begins at 0 ms`;
    if (points.at(-1)?.[1] !== end) return `the ${side}-voltage transient ends on the steady band, ${end} V`;
    if (points.some(([ms], i) => i > 0 && ms <= (points[i - 1]?.[0] ?? 0))) return `${side}: times must rise`;
  }
  return null;
}

/** Returns the volts that a transient's curve allows `ms` after the volts left the steady band. */
export function allowedAt(points: readonly Breakpoint[], ms: number): number {
  let before = points[0];
  if (!before) throw new Error("a transient has breakpoints");
  for (const point of points) {
    if (ms <= point[0]) {
      const span = point[0] - before[0];
      return span === 0 ? point[1] : before[1] + ((point[1] - before[1]) * (ms - before[0])) / span;
    }
    before = point;
  }
  return before[1];
}
