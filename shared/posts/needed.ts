import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the posts that must be held in this start: those that the type requires, and ground power when a cart is
 * planned.
 */
export function neededPosts(state: SessionState): Post[] {
  const posts = [...state.type.requiredPosts];
  if (state.powerSource === "groundPower" && !posts.includes("groundPower")) posts.push("groundPower");
  return posts;
}
