/** The house's rule for a date that is over: it refuses, or it only says so. */
export const LAPSE_RULES = ["bars", "warns"] as const;
export type LapseRule = (typeof LAPSE_RULES)[number];
