import { type Engine, plain } from "../engine/life.ts";
import { viscosityAt, viscosityLine } from "../models/oil/viscosity.ts";
import { inUnit } from "../models/units.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { Reading } from "../session/attribution.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";
import type { StartRow } from "./row.ts";

/** Oil pressure and oil temperature are of one moment when they were read within this time. Milliseconds. */
const TOGETHER_MS = 60_000;

/**
 * Returns the figures read at idle: the newest since the catch, except those read while the engine's run-up is under
 * way, when it turns faster.
 */
export function idleFigures(state: SessionState, n: number, caughtAt: number): StartRow["figures"] {
  const engine = engineOf(state, n);
  if (!engine || runningUp(engine)) return {};
  const is = plain(engine.life).is;
  if (is !== "running" && is !== "stable") return {};
  const since = (reading: Reading | undefined) =>
    reading !== undefined && reading.at >= caughtAt ? reading : undefined;
  const oil = since(engine.readings.oilPressure);
  const warm = since(engine.readings.oilTemp);
  const fuel = since(engine.readings.fuelPressure);
  const together = oil && warm && Math.abs(oil.at - warm.at) <= TOGETHER_MS;
  const atReference = together ? atReferenceViscosity(oil, warm, state.type) : null;
  return {
    ...(oil ? { idleOil: quantity(oil) } : {}),
    ...(atReference ? { idleOilReference: atReference } : {}),
    ...(fuel ? { fuelPressure: quantity(fuel) } : {}),
  };
}

/** Returns true from the first figure of the run-up until its last magneto was read. */
function runningUp({ runUp = {} }: Engine): boolean {
  const begun = Object.keys(runUp).length > 0;
  return begun && !(runUp.magnetoBoth && runUp.magnetoLeft && runUp.magnetoRight);
}

/**
 * Returns the oil pressure that the engine would show with oil of the reference viscosity: that of its grade at the
 * least oil temperature of the type's warm-up. At idle the relief valve is shut and the oil's flow through the bearings
 * is laminar, so that pressure goes with viscosity. Null without a grade, or without that temperature.
 */
export function atReferenceViscosity(
  pressure: Quantity,
  temperature: Quantity,
  type: Pick<AircraftType, "oil" | "warmUp">,
): Quantity | null {
  const gate = type.warmUp.find((g) => g.gauge === "oilTemp" && "atLeast" in g);
  const line = type.oil.grade && viscosityLine(...type.oil.grade.points);
  if (!(gate && "atLeast" in gate && line?.ok)) return null;
  const reference = viscosityAt(line.value, inUnit(gate.atLeast, "degC"));
  const read = viscosityAt(line.value, inUnit(temperature, "degC"));
  if (!(reference.ok && read.ok)) return null;
  return { value: (pressure.value * reference.value.mm2s) / read.value.mm2s, unit: pressure.unit };
}

function quantity({ value, unit }: Quantity): Quantity {
  return { value, unit };
}
