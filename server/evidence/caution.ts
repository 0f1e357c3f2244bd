import { isRehearsedAircraft } from "../../shared/protocol/rehearsal.ts";

/** Part of every export. */
export const CAUTION =
  "Chockside supports hand signals, the approved manual and trained crews; it never replaces them. " +
  "Local rules and licensed people decide.";

/** Begins the caution of everything exported from a rehearsal. */
export const REHEARSED = "REHEARSAL: no aircraft was started, and nothing here counts as a start. ";

/** Returns the caution of an export about an aircraft. */
export function cautionOf(aircraft: string): string {
  return isRehearsedAircraft(aircraft) ? `${REHEARSED}${CAUTION}` : CAUTION;
}
