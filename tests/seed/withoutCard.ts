import type { AircraftType } from "../../shared/types/schema.ts";

/** Returns the type without its card and the condition that stands on it. */
export function withoutCard({ card: _card, ...type }: AircraftType): AircraftType {
  return { ...type, conditions: type.conditions.filter((c) => c !== "cardAnswered") };
}
