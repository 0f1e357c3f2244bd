import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";

/**
 * True for a hand signal of the guard recorded by the person who clears. The one who clears is never the only source
 * of what the clearance stands on, so it counts for nothing until the guard or another person says it.
 */
export function byWhoClears(state: SessionState, said: Attribution): boolean {
  if (said.seenFrom === null) return false;
  return said.post === "supervisor" || said.name === state.posts.supervisor?.name;
}
