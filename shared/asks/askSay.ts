import type { AlertKind } from "../protocol/alerts.ts";
import type { AskedKind } from "../protocol/signals.ts";
import type { NextStage } from "../protocol/stages.ts";

/** Asks that are about no signal, no alert and no next stage. */
type OwnAsk =
  | "absentHold"
  | "allClear"
  | "arcClear"
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
  | "volts"
  | "voltsCranking"
  | "warmUp"
  | "weather";

/** Which sentence an ask is. Each has one in every language: the catalogues are tables over this type. */
export type AskSay =
  | `answer.${AskedKind}`
  | `alert.${AlertKind}`
  | `alertOver.${AlertKind}`
  | `advance.${NextStage}`
  | OwnAsk;
