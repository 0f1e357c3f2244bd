import { isTurning, plain } from "../engine/life.ts";
import type { Post } from "../protocol/posts.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { neededPosts } from "./needed.ts";

/** Milliseconds of silence after which a post is asked on its screen, called with a tone, and no longer waited for. */
export interface SilenceLimits {
  asked: number;
  called: number;
  lapsed: number;
}

/** Returns when the present need for presence began: the start came alive, or the warm-up, the arrival or the stopping began. Null when there is none. */
function watchedSince(state: SessionState): number | null {
  if (state.stage === "starting") return state.liveSince;
  const warming = attended(state) && state.type.timing.presenceAgain !== undefined;
  return warming && state.engines.some((e) => isTurning(e.life)) ? state.stageSince : null;
}

/** Returns true in a stage in which engines turn for long and posts are asked after the longer time. */
function attended({ stage }: SessionState): boolean {
  return stage === "warmUp" || stage === "arrival" || stage === "stopping";
}

/** Returns the time from which a post's silence counts: its holder's last touch, but not before presence was needed. */
function silentSince(state: SessionState, post: Post): number | null {
  const holder = state.posts[post];
  const watched = watchedSince(state);
  return holder && watched !== null ? Math.max(holder.touchedAt, watched) : null;
}

/** Returns the milliseconds for which a post has been silent where presence is needed; null where presence does not count now. */
export function silence(state: SessionState, post: Post, now: number): number | null {
  const since = silentSince(state, post);
  return since === null ? null : now - since;
}

/**
 * Returns the limits for one post: the type's longer ones if it was heard since the start became live, and in the
 * warm-up.
 */
export function silenceLimits(state: SessionState, post: Post): SilenceLimits {
  const { presenceSeen, presenceHeard, presenceHold, presenceAgain } = state.type.timing;
  const heard = (state.posts[post]?.touchedAt ?? 0) >= (state.liveSince ?? Number.POSITIVE_INFINITY);
  const longer = presenceAgain !== undefined && (heard || attended(state));
  const more = longer ? presenceAgain.value - presenceSeen.value : 0;
  return {
    asked: (presenceSeen.value + more) * 1000,
    called: (presenceHeard.value + more) * 1000,
    lapsed: (presenceHold.value + more) * 1000,
  };
}

/**
 * Returns whether the silence of this post holds the start. Before the starter engages, everybody's does. While an engine is
 * between starter and stable only the cockpit has anything to do: a hold for another post would stop nothing.
 */
function silenceHolds(state: SessionState, post: Post): boolean {
  if (state.stage !== "starting") return false;
  const before = state.engines.some((e) => ["requested", "clear"].includes(plain(e.life).is));
  return before || post === "cockpit";
}

function isSilent(state: SessionState, post: Post, now: number, limit: keyof SilenceLimits): boolean {
  const silent = silence(state, post, now);
  return silent !== null && silent >= silenceLimits(state, post)[limit];
}

/**
 * Returns the posts for whose silence the start is to be held now; empty when it is not. Once one has been silent for the
 * type's last time, every post that was called with a tone and did not touch belongs to the same hold.
 */
export function lapsedPosts(state: SessionState, now: number): Post[] {
  if (stopOpen(state)) return [];
  const holding = neededPosts(state).filter((post) => silenceHolds(state, post));
  if (!holding.some((post) => isSilent(state, post, now, "lapsed"))) return [];
  return holding.filter((post) => isSilent(state, post, now, "called"));
}

/** Returns the posts that were silent past the type's last time but whose silence raises only an alert, not a hold. */
export function missedPosts(state: SessionState, now: number): Post[] {
  if (stopOpen(state)) return [];
  return neededPosts(state).filter(
    (post) => !silenceHolds(state, post) && isSilent(state, post, now, "lapsed"),
  );
}

/** Returns the moments at which needed posts will have been silent too long. */
export function lapseMoments(state: SessionState): number[] {
  if (stopOpen(state)) return [];
  const told = state.alerts.some((a) => a.kind === "postSilent" && a.active);
  return neededPosts(state).flatMap((post) => {
    const since = silentSince(state, post);
    // Once one silence has raised the alert, a second one changes nothing.
    if (since === null || (told && !silenceHolds(state, post))) return [];
    return [since + silenceLimits(state, post).lapsed];
  });
}
