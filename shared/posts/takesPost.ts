import type { Action } from "../protocol/commands.ts";

/** Returns true for an action that gives the person a post, which they may not hold in two sessions. */
export function takesPost(action: Action): action is Extract<Action, { type: "claimPost" | "acceptPost" }> {
  return action.type === "claimPost" || action.type === "acceptPost";
}
