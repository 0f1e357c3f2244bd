import type { Action } from "../../../shared/protocol/commands.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { saidAs } from "../../../shared/session/saidAs.ts";

/** Signals besides stops and reports that lower confidence that can only increase safety, whatever happened in between. */
const SAFER: readonly SignalKind[] = ["startAbandoned", "shutDown"];

/**
 * True for an action that may be sent without a fresh connection. The list names safe actions, not unsafe ones, so a
 * new kind of action waits for the connection until somebody adds it here.
 */
export function makesNothingLessSafe(action: Pick<Action, "type"> & Record<string, unknown>): boolean {
  switch (action.type) {
    case "send":
      // It says that a clearance is used, and whether one stands is not known here.
      if (action.kind === "cranking") return false;
      return saidAs(action as Action) !== "raises" || SAFER.includes(action.kind as SignalKind);
    case "answer":
      return action.answer === "unable" || action.answer === "received" || action.answer === "done";
    case "recordCheck":
    case "answerCard":
    case "countBlades":
    case "writeDefect":
      return saidAs(action as Action) !== "raises";
    case "acknowledgeAlert":
      return true;
    // A flash can only stop work; its distance can let work continue.
    case "recordFlash":
      return action.of === undefined && action.miles === undefined && action.thunderAfterS === undefined;
    default:
      return false;
  }
}
