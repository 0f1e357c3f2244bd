import { type Band, gaugeBand, type Marks } from "../../../shared/models/gaugeBand.ts";
import { convert, isUnit } from "../../../shared/models/units.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";

export interface Point {
  /** Server time, milliseconds. */
  at: number;
  /** In the gauge's unit. */
  value: number;
}

/** Readings of one gauge for one engine, or for the aircraft, oldest first; never empty. */
export interface Trace {
  key: string;
  /** Null for a gauge of the whole aircraft, undefined for the ground power unit. */
  engine: number | null | undefined;
  marks: Marks;
  points: Point[];
  /** Band of the newest reading; null when it is off the scale. */
  band: Band | null;
}

/**
 * Time span of the charts, and the age beyond which a reading is no longer drawn as current, milliseconds. Our own
 * judgement.
 */
export const WINDOW_MS = 600_000;
export const OLD_MS = 60_000;

/**
 * Returns a trace for every gauge read within the window: gauges in the type's order, engines in the planned order,
 * ground power last.
 */
export function tracesOf(
  events: readonly SessionEvent[],
  type: AircraftType,
  order: readonly number[],
  now: number,
): Trace[] {
  const recent = events.filter((e) => e.at >= now - WINDOW_MS);
  const gauges = type.gauges.flatMap((gauge) =>
    (gauge.perEngine ? order : [null]).map((engine) => {
      const points = recent.flatMap(({ fact, at }) =>
        fact.type === "reading" && fact.gauge === gauge.id && (fact.engine ?? null) === engine
          ? pointOf(fact.reading, gauge.unit, at)
          : [],
      );
      return traceOf(`${gauge.id}:${engine ?? 0}`, engine, gauge, points);
    }),
  );
  const { steadyMin, steadyMax } = type.groundPower;
  const unit = steadyMin.unit;
  const volts = recent.flatMap(({ fact, at }) =>
    fact.type === "sent" && fact.volts ? pointOf(fact.volts, unit, at) : [],
  );
  const scale = { from: 0, to: Math.ceil(steadyMax.value * 1.25), step: 0.1 };
  const marks: Marks = { name: "", unit, scale, min: steadyMin.value, max: steadyMax.value };
  return [...gauges, traceOf("groundPower", undefined, marks, volts)].filter((t) => t.points.length > 0);
}

/** Returns the reading in `unit`, or nothing when the record holds a unit that this version does not know. */
function pointOf(read: { value: number; unit: string }, unit: Marks["unit"], at: number): Point[] {
  const converted = isUnit(read.unit) ? convert({ value: read.value, unit: read.unit }, unit) : null;
  return converted?.ok ? [{ at, value: converted.value.value }] : [];
}

function traceOf(key: string, engine: Trace["engine"], marks: Marks, points: Point[]): Trace {
  const last = points.at(-1);
  const band = last && gaugeBand(marks, { value: last.value, unit: marks.unit });
  return { key, engine, marks, points, band: band?.ok ? band.value : null };
}
