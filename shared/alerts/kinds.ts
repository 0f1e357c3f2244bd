import type { AlertKind } from "../protocol/alerts.ts";
import { clearanceVoid } from "./clearances.ts";
import type { AlertDefinition } from "./definition.ts";
import { arcUnsafe, guardMissing, revokedTurning, starterLimit, turningUncleared } from "./engines.ts";
import { groundPowerOutOfRange, powerLost } from "./groundPower.ts";
import { lightning } from "./lightning.ts";
import { unanswered } from "./messages.ts";
import { oilFirstLate, oilLost, oilNormalLate } from "./oil.ts";
import { postSilent, postVacant } from "./posts.ts";
import { cut, fire, hold } from "./stops.ts";
import { mayRoll } from "./wheels.ts";

/** The definition of every kind. A normal start raises none of them; routine signals are not alerts. */
export const ALERTS: { readonly [Kind in AlertKind]: AlertDefinition<Kind> } = {
  fire,
  cut,
  hold,
  clearanceVoid,
  starterLimit,
  turningUncleared,
  oilFirstLate,
  oilNormalLate,
  guardMissing,
  arcUnsafe,
  revokedTurning,
  oilLost,
  groundPowerOutOfRange,
  powerLost,
  mayRoll,
  lightning,
  unanswered,
  postVacant,
  postSilent,
};
