import type { Post } from "../protocol/posts.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { neededPosts } from "./needed.ts";

/** Since when a post's silence counts: its holder's last touch, but not before the start came alive. */
function silentSince(state: SessionState, post: Post): number | null {
  const holder = state.posts[post];
  if (!holder || state.liveSince === null || state.stage !== "starting") return null;
  return Math.max(holder.touchedAt, state.liveSince);
}

/** Milliseconds a needed post has been silent in a live start; null where presence does not count now. */
export function silence(state: SessionState, post: Post, now: number): number | null {
  const since = silentSince(state, post);
  return since === null ? null : now - since;
}

/** Needed posts silent past the type's limit, with no stop standing yet: each of them holds the start. */
export function lapsedPosts(state: SessionState, now: number): Post[] {
  if (stopOpen(state)) return [];
  const limit = state.type.timing.presenceHold.value * 1000;
  return neededPosts(state).filter((post) => (silence(state, post, now) ?? 0) >= limit);
}

/** Moments at which a needed post will have been silent too long. */
export function lapseMoments(state: SessionState): number[] {
  if (stopOpen(state)) return [];
  const limit = state.type.timing.presenceHold.value * 1000;
  return neededPosts(state).flatMap((post) => {
    const since = silentSince(state, post);
    return since === null ? [] : [since + limit];
  });
}
