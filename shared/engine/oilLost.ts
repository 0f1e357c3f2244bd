import { oilLimitsAt } from "../models/oil/oilBands.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { type Engine, plain } from "./life.ts";

/** Returns true if an engine, running or stable, had normal oil pressure and now shows less than the type's least. */
export function oilShort(state: SessionState, engine: Engine, psi: Pick<Quantity, "value">): boolean {
  const { is } = plain(engine.life);
  return (is === "running" || is === "stable") && psi.value < leastOil(state);
}

/** The reading by which an engine's oil pressure is gone after it had come; null while it is not. */
export function oilLost(state: SessionState, engine: Engine): Engine["readings"][string] | null {
  const read = engine.readings.oilPressure;
  return read && oilShort(state, engine, read) ? read : null;
}

/** The least normal oil pressure in the air recorded now. */
export function leastOil(state: SessionState): number {
  return oilLimitsAt(state.type.oil, airTemperature(state)).normal.atLeast.value;
}
