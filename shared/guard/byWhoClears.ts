import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns true for a hand signal of the guard that the person who clears recorded. That person must never be the only
 * source for a clearance, so the signal does not count until the guard or another person reports it.
 */
export function byWhoClears(state: SessionState, said: Attribution): boolean {
  if (said.seenFrom === null) return false;
  return said.post === "supervisor" || said.name === state.posts.supervisor?.name;
}
