import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { Condition } from "./condition.ts";

/** Every post the type requires, and ground power when a cart is planned, is held by somebody who was briefed. */
export const postsHeld: Condition = {
  id: "postsHeld",
  owners: ["supervisor"],
  find(state) {
    const empty = neededPosts(state).find((post) => !state.posts[post]?.briefed);
    if (!empty) return { is: "yes", at: null, by: null, until: null };
    const holder = state.posts[empty];
    const by = holder ? { post: empty, name: holder.name } : null;
    return { is: "no", at: holder?.since ?? null, by, until: null, found: empty };
  },
};

export function neededPosts(state: SessionState): Post[] {
  const posts = [...state.type.requiredPosts];
  if (state.powerSource === "groundPower" && !posts.includes("groundPower")) posts.push("groundPower");
  return posts;
}
