import { neededPosts } from "../posts/needed.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { Check } from "../types/schema.ts";

/**
 * Returns the post that is asked for a check: the type's post, or the supervisor if this start does not need that post.
 */
export function postFor(state: SessionState, check: Check): Post {
  return neededPosts(state).includes(check.post) ? check.post : "supervisor";
}
