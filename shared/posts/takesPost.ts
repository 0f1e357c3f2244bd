import type { Action } from "../protocol/commands.ts";

/** True for an action that gives this person a post they may not hold in two sessions. */
export function takesPost(action: Action): boolean {
  return action.type === "claimPost" || action.type === "acceptPost";
}
