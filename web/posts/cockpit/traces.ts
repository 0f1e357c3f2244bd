import { type Band, gaugeBand, type Marks } from "../../../shared/models/gaugeBand.ts";
import { convert, isUnit } from "../../../shared/models/units.ts";
import type { Fact, SessionEvent } from "../../../shared/protocol/events.ts";
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
      const points = recent.flatMap(({ fact, at }) => {
        const read = gaugeRead(fact, type);
        const here = read?.gauge === gauge.id && (gauge.perEngine ? read.engine : null) === engine;
        return here ? pointOf(read.reading, gauge.unit, at) : [];
      });
      return traceOf(`${gauge.id}:${engine ?? 0}`, engine, gauge, points);
    }),
  );
  const { steadyMin, steadyMax } = type.groundPower;
  const unit = steadyMin.unit;
  const volts = recent.flatMap(({ fact, at }) =>
    // Volts with an engine are the lowest of its attempt, read out afterwards: not those of now.
    fact.type === "sent" && fact.volts && fact.engine === undefined ? pointOf(fact.volts, unit, at) : [],
  );
  const scale = { from: 0, to: Math.ceil(steadyMax.value * 1.25), step: 0.1 };
  const marks: Marks = { name: "", unit, scale, min: steadyMin.value, max: steadyMax.value };
  return [...gauges, traceOf("groundPower", undefined, marks, volts)].filter((t) => t.points.length > 0);
}

interface GaugeRead {
  gauge: string;
  engine: number | null;
  reading: { value: number; unit: string };
}

/** Returns the reading that a fact holds: one of its own, or the answer to an item of the card. */
function gaugeRead(fact: Fact, type: AircraftType): GaugeRead | null {
  if (fact.type === "reading") return { ...fact, engine: fact.engine ?? null };
  if (fact.type !== "cardAnswered" || !fact.reading) return null;
  const kind = type.card?.find((i) => i.id === fact.item)?.kind;
  if (kind?.is !== "range" && kind?.is !== "target") return null;
  return { gauge: kind.gauge, engine: fact.engine ?? null, reading: fact.reading };
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
