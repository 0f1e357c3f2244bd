import type { AircraftType } from "../types/schema.ts";

/** Returns whether a check gives a forecast: the least temperature expected of the night, of which a source is asked. */
export function isForecast({ stopping }: AircraftType, check: string): boolean {
  return stopping?.oilDilution?.check === check;
}
