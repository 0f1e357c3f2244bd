import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";

/** Outside temperature as last recorded, however long ago: its age is shown where it decides. Null: nobody has said. */
export function airTemperature(state: SessionState): Quantity | null {
  const degC = state.weather?.temperatureC ?? null;
  return degC === null ? null : { value: degC, unit: "degC" };
}
