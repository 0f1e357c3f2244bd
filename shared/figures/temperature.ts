import type { SessionState } from "../session/state.ts";
import { seenBy } from "../weather/weather.ts";
import { type FigureInput, notRead, said } from "./figure.ts";

export const TEMPERATURE_NOT_READ =
  "The temperature has not been read: the most restrictive limits are taken.";

/** Returns the recorded temperature of the air as an input. */
export function airInput(state: SessionState): FigureInput {
  const seen = state.weather;
  if (!seen || seen.temperatureC === null) return notRead("air temperature");
  return said("air temperature", { value: seen.temperatureC, unit: "degC" }, seenBy(seen));
}
