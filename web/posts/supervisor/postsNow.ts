import type { Ask } from "../../../shared/asks/ask.ts";
import { askedOf } from "../../../shared/asks/asked.ts";
import { findUnmet } from "../../../shared/conditions/all.ts";
import { plain } from "../../../shared/engine/life.ts";
import { lifeAt } from "../../../shared/engine/lifeAt.ts";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";

/** One post in the supervisor's line: who holds it, what it owes first, and whether the start waits for it. */
export interface PostNow {
  post: Post;
  holder: string | null;
  /** Everything asked of it that does not wait, most pressing first. */
  owes: readonly Ask[];
  /** The first ask's time left, milliseconds, below 0 when late; null without a limit. */
  left: number | null;
  /** The start waits for this post. */
  blocks: boolean;
}

/** The largest weight of an ask that a post owes: later ones can wait. */
const OWED = 3;
const IN_THE_START = 2;

/** Returns the four posts, the latest first: by time left, then by how long the ask has waited. */
export function postsNow(state: SessionState, now: number): PostNow[] {
  const found = POSTS.map((post): PostNow => {
    const owes = askedOf(state, post, now).filter((a) => a.weight <= OWED);
    const dueAt = owes[0]?.dueAt ?? null;
    return {
      post,
      holder: state.posts[post]?.name ?? null,
      owes,
      left: dueAt === null ? null : dueAt - now,
      blocks: false,
    };
  });
  const blockers = blockersOf(state, found, now);
  return found
    .map((p) => ({ ...p, blocks: blockers.includes(p.post) }))
    .sort((a, b) => lateness(a, now) - lateness(b, now));
}

/** Returns a rank: less is later. Time limits come before asks without one, and those before posts that owe nothing. */
function lateness({ owes: [first], left }: PostNow, now: number): number {
  const week = 604_800_000;
  if (first === undefined) return 2 * week;
  return left ?? week - (now - (first.since ?? now));
}

/**
 * Returns the posts for which the start waits: the owners of what a requested engine lacks, else the post that owes the
 * most pressing step of the start.
 */
function blockersOf(state: SessionState, posts: readonly PostNow[], now: number): Post[] {
  const asked = state.engines.find((e) => plain(lifeAt(e.life, now)).is === "requested");
  const owners = asked ? findUnmet(state, asked.n, now).flatMap((u) => u.owners) : [];
  const owing = posts.filter((p) => p.owes.length > 0);
  const named = owing.filter((p) => owners.includes(p.post)).map((p) => p.post);
  if (named.length > 0) return named;
  const first = Math.min(...owing.map((p) => p.owes[0]?.weight ?? OWED));
  return first > IN_THE_START ? [] : owing.filter((p) => p.owes[0]?.weight === first).map((p) => p.post);
}
