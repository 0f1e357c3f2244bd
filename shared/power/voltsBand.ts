import { plain } from "../engine/life.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the band of volts that holds for a report: the starting band, where the type has one, while an engine cranks
 * and for the lowest volts of an attempt (`of`), which are read out after it.
 */
export function voltsBand(state: SessionState, of?: number): [min: Quantity, max: Quantity] {
  const { steadyMin, steadyMax, starting } = state.type.groundPower;
  return starting && readWhileCranking(state, of) ? [starting.min, starting.max] : [steadyMin, steadyMax];
}

/**
 * True when power is on, the type gives a band for cranking, and an engine cranks or the report names the engine whose
 * attempt it is of: the report is then not of steady volts.
 */
export function readWhileCranking(state: SessionState, of?: number): boolean {
  const cranking = of !== undefined || state.engines.some((e) => plain(e.life).is === "cranking");
  return cranking && state.groundPower.is === "on" && state.type.groundPower.starting !== undefined;
}
