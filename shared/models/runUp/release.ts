import type { Quantity } from "../../protocol/quantity.ts";
import type { Limit } from "../../types/limit.ts";
import type { Gauge } from "../../types/schema.ts";
import { type Band, gaugeBand } from "../gaugeBand.ts";
import { type FeatherFault, type FeatherLimits, type FeatherReading, featherCheck } from "./feather.ts";
import { type MagnetoFault, type MagnetoLimits, type MagnetoReading, magnetoCheck } from "./magneto.ts";
import { type PowerReading, pressureSpread } from "./manifoldPressure.ts";

/** Requirements of a run-up before release. All figures are the type's. */
export interface RunUpRules {
  gauges: readonly Gauge[];
  magneto: MagnetoLimits;
  /** Null where the propeller does not feather. */
  feather: FeatherLimits | null;
  manifold: { limit: Limit; rpmTolerance: number };
}

/** One engine's run-up. A check that is not done yet is null. */
export interface EngineRunUp {
  engine: number;
  gauges: Readonly<Record<string, Quantity>>;
  magneto: MagnetoReading | null;
  feather: FeatherReading | null;
  power: { manifoldInHg: number; rpm: number } | null;
}

/**
 * One thing that prevents the release, and the engine it belongs to (null: the aircraft). The catalogues hold the
 * words.
 */
export type ReleaseFault =
  | {
      code: "gauge";
      engine: number | null;
      gauge: string;
      band: Exclude<Band, "normal" | "usable" | "caution">;
    }
  | { code: "gaugeNotRead"; engine: number | null; gauge: string }
  | { code: "gaugeUnreadable"; engine: number | null; gauge: string; why: string }
  | { code: "magneto"; engine: number; fault: MagnetoFault }
  | { code: "feather"; engine: number; fault: FeatherFault }
  | { code: "notDone"; engine: number; check: "magneto" | "feather" | "power" }
  | { code: "unreadable"; engine: number | null; check: "magneto" | "feather" | "power"; why: string }
  | { code: "manifoldSpread"; engine: null; spread: number; highest: number; lowest: number };

/** Bands that are no fault but are still reported. */
export interface ReleaseNote {
  engine: number | null;
  gauge: string;
  band: "usable" | "caution";
}

export interface ReleaseVerdict {
  ready: boolean;
  faults: ReleaseFault[];
  notes: ReleaseNote[];
}

/**
 * Returns whether the aircraft is ready for release. It is, only when every gauge of the type with a mark is read and
 * neither below its minimum nor above its maximum, every magneto and feather check is done without fault, and manifold
 * pressures agree. Names each failing item; a figure that is missing or unusable fails. `shared` holds the gauges of
 * the whole aircraft.
 */
export function readyForRelease(
  engines: readonly EngineRunUp[],
  shared: Readonly<Record<string, Quantity>>,
  rules: RunUpRules,
): ReleaseVerdict {
  const faults: ReleaseFault[] = [];
  const notes: ReleaseNote[] = [];
  for (const gauge of rules.gauges.filter(hasMark)) {
    const readings = gauge.perEngine
      ? engines.map((e) => ({ engine: e.engine, reading: e.gauges[gauge.id] }))
      : [{ engine: null, reading: shared[gauge.id] }];
    for (const { engine, reading } of readings) judgeGauge(gauge, engine, reading, faults, notes);
  }
  for (const { engine, magneto, feather } of engines) {
    const check = magneto && magnetoCheck(magneto, rules.magneto);
    if (!check) faults.push({ code: "notDone", engine, check: "magneto" });
    else if (!check.ok) faults.push({ code: "unreadable", engine, check: "magneto", why: check.why });
    else faults.push(...check.value.faults.map((fault) => ({ code: "magneto" as const, engine, fault })));
    if (!rules.feather) continue;
    const answer = feather && featherCheck(feather, rules.feather);
    if (!answer) faults.push({ code: "notDone", engine, check: "feather" });
    else if (!answer.ok) faults.push({ code: "unreadable", engine, check: "feather", why: answer.why });
    else faults.push(...answer.value.faults.map((fault) => ({ code: "feather" as const, engine, fault })));
  }
  faults.push(...powerFaults(engines, rules));
  return { ready: engines.length > 0 && faults.length === 0, faults, notes };
}

function hasMark({ min, normalLow, normalHigh, max }: Gauge): boolean {
  return [min, normalLow, normalHigh, max].some((mark) => mark !== undefined);
}

function judgeGauge(
  gauge: Gauge,
  engine: number | null,
  reading: Quantity | undefined,
  faults: ReleaseFault[],
  notes: ReleaseNote[],
): void {
  if (!reading) {
    faults.push({ code: "gaugeNotRead", engine, gauge: gauge.id });
    return;
  }
  const band = gaugeBand(gauge, reading);
  if (!band.ok) faults.push({ code: "gaugeUnreadable", engine, gauge: gauge.id, why: band.why });
  else if (band.value === "belowMin" || band.value === "over") {
    faults.push({ code: "gauge", engine, gauge: gauge.id, band: band.value });
  } else if (band.value !== "normal") notes.push({ engine, gauge: gauge.id, band: band.value });
}

/** A single engine has no other engine to agree with. */
function powerFaults(engines: readonly EngineRunUp[], { manifold }: RunUpRules): ReleaseFault[] {
  const missing = engines.filter((e) => !e.power);
  if (missing.length > 0) return missing.map(({ engine }) => ({ code: "notDone", engine, check: "power" }));
  if (engines.length < 2) return [];
  const readings = engines.flatMap(({ engine, power }): PowerReading[] =>
    power ? [{ engine, ...power }] : [],
  );
  const spread = pressureSpread(readings, manifold.limit, manifold.rpmTolerance);
  if (!spread.ok) return [{ code: "unreadable", engine: null, check: "power", why: spread.why }];
  const { within, highest, lowest } = spread.value;
  return within
    ? []
    : [{ code: "manifoldSpread", engine: null, spread: spread.value.spread, highest, lowest }];
}
