import type { AircraftType } from "./schema.ts";

/**
 * Returns a gauge's name for use inside a sentence, such as "oil pressure"; its id where the type has no such gauge.
 */
export function gaugeName(type: AircraftType | null, id: string): string {
  return type?.gauges.find((g) => g.id === id)?.name.toLowerCase() ?? id;
}
