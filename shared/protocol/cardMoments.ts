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
