import { neededPosts } from "../posts/needed.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { Check } from "../types/schema.ts";

/** The post that a check is asked of: the type's, or the supervisor where this start does not need that post. */
export function postFor(state: SessionState, check: Check): Post {
  return neededPosts(state).includes(check.post) ? check.post : "supervisor";
}
