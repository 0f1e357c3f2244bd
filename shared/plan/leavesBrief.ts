import type { Action } from "../protocol/commands.ts";

/** From here on people and power go to the aircraft: one session of it at a time. */
export function leavesBrief(action: Action): boolean {
  return action.type === "advance" && action.to === "secure";
}
