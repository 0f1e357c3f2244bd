import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the outside temperature as last recorded, of any age: its age is shown where it decides. Null: nobody has
 * reported one.
 */
export function airTemperature(state: SessionState): Quantity | null {
  const degC = state.weather?.temperatureC ?? null;
  return degC === null ? null : { value: degC, unit: "degC" };
}
