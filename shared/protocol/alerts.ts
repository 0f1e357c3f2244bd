/** Every kind of alert. `alerts/kinds.ts` says who is told of each, and how pressing it is. */
export const ALERT_KINDS = [
  "fire",
  "cut",
  "hold",
  "turningUncleared",
  "guardMissing",
  "oilFirstLate",
  "oilNormalLate",
  "starterLimit",
  "groundPowerOutOfRange",
  "unanswered",
] as const;
export type AlertKind = (typeof ALERT_KINDS)[number];
