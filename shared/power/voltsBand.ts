import { plain } from "../engine/life.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the band of volts that holds now: while an engine cranks the starting band, where the type has one. */
export function voltsBand(state: SessionState): [min: Quantity, max: Quantity] {
  const { steadyMin, steadyMax, starting } = state.type.groundPower;
  return starting && readWhileCranking(state) ? [starting.min, starting.max] : [steadyMin, steadyMax];
}

/**
 * True when power is on, an engine cranks, and the type gives a band for that time: the report is then not of steady
 * volts.
 */
export function readWhileCranking(state: SessionState): boolean {
  const cranking = state.engines.some((e) => plain(e.life).is === "cranking");
  return cranking && state.groundPower.is === "on" && state.type.groundPower.starting !== undefined;
}
