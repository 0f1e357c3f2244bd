import { timeOfDay as clock } from "../../shared/words/dates.ts";

/** Returns the time of day in UTC; null for null. */
export const timeOfDay = (ms: number | null) => (ms === null ? null : clock(ms));
