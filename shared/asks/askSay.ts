import type { AlertKind } from "../protocol/alerts.ts";
import type { AskedKind } from "../protocol/signals.ts";
import type { NextStage } from "../protocol/stages.ts";

/** Asks about something other than a signal, an alert or the next stage. */
type OwnAsk =
  | "abandon"
  | "abandonWaits"
  | "absentHold"
  | "allClear"
  | "arcClear"
  | "barringDefect"
  | "brakesSet"
  | "brief"
  | "card"
  | "card.again"
  | "cardOfEngine"
  | "cardOfEngine.again"
  | "check"
  | "chocksIn"
  | "chocksInAgain"
  | "chocksOut"
  | "chocksOutAgain"
  | "clearRenews"
  | "clearToStart"
  | "clearWaits"
  | "connectPower"
  | "coolDownBegins"
  | "coolDownGauge"
  | "coolDownRemark"
  | "coolDownTime"
  | "countBlades"
  | "crank"
  | "cranking"
  | "disconnectPower"
  | "disconnectStopped"
  | "drill"
  | "drillEnd"
  | "fireOut"
  | "fireOutSecond"
  | "goBack"
  | "guardInPlace"
  | "guardPath"
  | "guardStill"
  | "handlePropeller"
  | "handsOffTurning"
  | "handsOn"
  | "idleFaster"
  | "inboardTurns"
  | "insertChocks"
  | "lightning"
  | "lightningLeave"
  | "oilFirst"
  | "oilNormal"
  | "oilUnknown"
  | "onStand"
  | "override"
  | "ownHold"
  | "powerConnected"
  | "powerDisconnected"
  | "present"
  | "propellerFree"
  | "propellerLeft"
  | "propellerStill"
  | "propellerStopped"
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
  | "stopEngine"
  | "switchesOff"
  | "turned"
  | "unattended"
  | "volts"
  | "voltsCranked"
  | "warmUp"
  | "weather";

/** Asks for the answer to a signal. Its sentence stands with the signal's words. */
export type AnswerSay = `answer.${AskedKind}`;

/** An ask whose sentence is a row of the catalogue's asks, a table over this type. */
export type OtherSay =
  | `alert.${AlertKind}`
  | `alertOver.${AlertKind}`
  | `advance.${NextStage}`
  | "advance.stopped"
  | OwnAsk;

/** The key of an ask's sentence. */
export type AskSay = AnswerSay | OtherSay;

const ANSWER = "answer.";

/** Returns the kind of signal whose answer is asked for; null for another ask. */
export function askedKind(say: AskSay): AskedKind | null {
  return say.startsWith(ANSWER) ? (say.slice(ANSWER.length) as AskedKind) : null;
}
