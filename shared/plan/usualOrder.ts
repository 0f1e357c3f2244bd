import type { Purpose } from "../protocol/stages.ts";
import type { AircraftType } from "../types/schema.ts";

/** Returns the type's usual order: of starting, or of stopping. Without rules for stopping it is the order of starting. */
export function usualOrder(type: AircraftType, purpose: Purpose): number[] {
  return purpose === "return" ? (type.stopping?.order ?? type.defaultOrder) : type.defaultOrder;
}
