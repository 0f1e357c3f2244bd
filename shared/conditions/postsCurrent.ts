import { POSTS } from "../protocol/posts.ts";
import type { ReportedCondition } from "./definition.ts";

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
