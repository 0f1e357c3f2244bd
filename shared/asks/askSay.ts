import type { AlertKind } from "../protocol/alerts.ts";
import type { AskedKind } from "../protocol/signals.ts";
import type { NextStage } from "../protocol/stages.ts";

/** Asks about something other than a signal, an alert or the next stage. */
type OwnAsk =
  | "absentHold"
  | "allClear"
  | "arcClear"
  | "barringDefect"
  | "brakesSet"
  | "brief"
  | "check"
  | "chocksIn"
  | "chocksOut"
  | "clearToStart"
  | "clearWaits"
  | "connectPower"
  | "countBlades"
  | "crank"
  | "cranking"
  | "disconnectPower"
  | "drill"
  | "drillEnd"
  | "fireOut"
  | "fireOutSecond"
  | "goBack"
  | "guardInPlace"
  | "guardPath"
  | "handlePropeller"
  | "handsOffTurning"
  | "oilFirst"
  | "oilNormal"
  | "oilUnknown"
  | "override"
  | "ownHold"
  | "powerConnected"
  | "powerDisconnected"
  | "present"
  | "propellerFree"
  | "propellerLeft"
  | "propellerStill"
  | "readyToStart"
  | "removeChocks"
  | "resetCut"
  | "runUp"
  | "runUp.plain"
  | "settle"
  | "silentHold"
  | "startWaits"
  | "standClear"
  | "starterCooling"
  | "turned"
  | "unattended"
  | "volts"
  | "voltsCranking"
  | "warmUp"
  | "weather";

/**
 * The key of an ask's sentence. The catalogues are tables over this type, so each ask has a sentence in every language.
 */
export type AskSay =
  | `answer.${AskedKind}`
  | `alert.${AlertKind}`
  | `alertOver.${AlertKind}`
  | `advance.${NextStage}`
  | OwnAsk;
