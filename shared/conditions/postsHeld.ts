import { neededPosts } from "../posts/needed.ts";
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
