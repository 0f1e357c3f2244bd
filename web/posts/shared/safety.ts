import type { Action } from "../../../shared/protocol/commands.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { isStop } from "../../../shared/stops/isStop.ts";

/** Signals that can only make things safer, whatever has happened meanwhile. */
const SAFER: readonly SignalKind[] = [
  "arcNotClear",
  "guardAway",
  "revokeClearance",
  "startAbandoned",
  "shutDown",
  "brakesReleased",
  "negative",
];

/**
 * True for what may be given without having heard the server lately. A list of what is safe, not of what is not: a new
 * kind of action waits for the link until somebody has thought about it.
 */
export function makesNothingLessSafe(action: Pick<Action, "type"> & Record<string, unknown>): boolean {
  switch (action.type) {
    case "send":
      return isStop(action as Action) || SAFER.includes(action.kind as SignalKind);
    case "answer":
      return action.answer === "unable" || action.answer === "received" || action.answer === "done";
    case "recordCheck":
      return action.good === false;
    case "acknowledgeAlert":
      return true;
    // A flash can only stop work; how far it was can let it go on.
    case "recordFlash":
      return action.of === undefined && action.miles === undefined && action.thunderAfterS === undefined;
    default:
      return false;
  }
}
