import type { Action } from "../../../shared/protocol/commands.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { isStop } from "../../../shared/signals/isStop.ts";

/** Signals that can only increase safety, whatever has happened in between. */
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
 * True for an action that may be sent without a fresh connection. The list names safe actions, not unsafe ones, so a
 * new kind of action waits for the connection until somebody adds it here.
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
    // A flash can only stop work; its distance can let work continue.
    case "recordFlash":
      return action.of === undefined && action.miles === undefined && action.thunderAfterS === undefined;
    default:
      return false;
  }
}
