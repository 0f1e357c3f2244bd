/** The moments of the cockpit's card, in the order of the job. */
export const CARD_MOMENTS = [
  "beforeStart",
  "beforeEngine",
  "cranking",
  "caught",
  "stable",
  "beforeRelease",
  "beforeStop",
  "stopped",
] as const;
export type CardMoment = (typeof CARD_MOMENTS)[number];

/** The cases of a start: as usual, soon after it ran, or after an attempt that failed. */
export const CARD_CASES = ["usual", "hot", "flooded"] as const;
export type CardCase = (typeof CARD_CASES)[number];
