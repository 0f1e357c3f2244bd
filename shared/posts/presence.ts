import type { Post } from "../protocol/posts.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { neededPosts } from "./needed.ts";

/**
 * Returns the time from which a post's silence counts: its holder's last touch, but not before the start became live.
 */
function silentSince(state: SessionState, post: Post): number | null {
  const holder = state.posts[post];
  if (!holder || state.liveSince === null || state.stage !== "starting") return null;
  return Math.max(holder.touchedAt, state.liveSince);
}

/**
 * Returns the milliseconds for which a needed post has been silent in a live start; null where presence does not count
 * now.
 */
export function silence(state: SessionState, post: Post, now: number): number | null {
  const since = silentSince(state, post);
  return since === null ? null : now - since;
}

/**
 * Returns the needed posts that were silent longer than the type's limit; none while a stop is open. Each of them holds
 * the start.
 */
export function lapsedPosts(state: SessionState, now: number): Post[] {
  if (stopOpen(state)) return [];
  const limit = state.type.timing.presenceHold.value * 1000;
  return neededPosts(state).filter((post) => (silence(state, post, now) ?? 0) >= limit);
}

/** Returns the moments at which needed posts will have been silent too long. */
export function lapseMoments(state: SessionState): number[] {
  if (stopOpen(state)) return [];
  const limit = state.type.timing.presenceHold.value * 1000;
  return neededPosts(state).flatMap((post) => {
    const since = silentSince(state, post);
    return since === null ? [] : [since + limit];
  });
}
