import { neededPosts } from "../posts/needed.ts";
import { POSTS } from "../protocol/posts.ts";
import type { ReportedCondition } from "./definition.ts";

/** Every post that the type requires, and ground power when a cart is planned, is held by a person who was briefed. */
export const postsHeld: ReportedCondition<"postsHeld"> = {
  id: "postsHeld",
  owners: ["supervisor"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state) {
    const empty = neededPosts(state).find((post) => !state.posts[post]?.briefed);
    if (!empty) return { is: "yes", at: null, by: null, until: null };
    const holder = state.posts[empty];
    const by = holder ? { post: empty, name: holder.name } : null;
    return { is: "no", at: holder?.since ?? null, by, until: null, found: empty };
  },
};

/**
 * Nobody at a post has training or a sign-off that expired (14 CFR 139.329 shape: trained before duty and every 12
 * months).
 */
export const postsCurrent: ReportedCondition<"postsCurrent"> = {
  id: "postsCurrent",
  owners: ["supervisor"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, _engine, now) {
    const holders = POSTS.flatMap((post) => {
      const holder = state.posts[post];
      return holder && holder.currentUntil !== null ? [{ post, holder, until: holder.currentUntil }] : [];
    });
    const lapsed = holders.find((h) => now >= h.until);
    if (lapsed) {
      const by = { post: lapsed.post, name: lapsed.holder.name };
      return { is: "no", at: lapsed.until, by, until: null, found: lapsed.post };
    }
    const until = holders.length === 0 ? null : Math.min(...holders.map((h) => h.until));
    return { is: "yes", at: null, by: null, until };
  },
};
