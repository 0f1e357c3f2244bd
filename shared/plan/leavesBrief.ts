import type { Action } from "../protocol/commands.ts";

/**
 * Returns true for an action after which people and power go to the aircraft. Only one session of an aircraft may do
 * that at a time.
 */
export function leavesBrief(action: Action): boolean {
  return action.type === "advance" && (action.to === "secure" || action.to === "arrival");
}
