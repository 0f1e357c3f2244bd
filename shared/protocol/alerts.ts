/**
 * Every kind of alert, in the order in which alerts that begin at one moment are recorded: first those of an engine,
 * engine by engine, then the others. `alerts/kinds.ts` defines each.
 */
export const ALERT_KINDS = [
  "starterLimit",
  "turningUncleared",
  "oilFirstLate",
  "oilNormalLate",
  "guardMissing",
  "arcUnsafe",
  "revokedTurning",
  "oilLost",
  "fire",
  "cut",
  "hold",
  "clearanceVoid",
  "groundPowerOutOfRange",
  "powerLost",
  "mayRoll",
  "lightning",
  "unanswered",
  "postVacant",
  "postSilent",
] as const;
export type AlertKind = (typeof ALERT_KINDS)[number];

/** The kinds that a type may tie a drill to. */
export const DRILL_ALERTS = [
  "turningUncleared",
  "guardMissing",
  "oilFirstLate",
  "oilNormalLate",
  "groundPowerOutOfRange",
  "arcUnsafe",
  "revokedTurning",
  "oilLost",
  "mayRoll",
  "powerLost",
] as const satisfies readonly AlertKind[];
export type DrillAlert = (typeof DRILL_ALERTS)[number];
