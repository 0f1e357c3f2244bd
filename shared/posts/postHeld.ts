import { POSTS, type Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the post that a person holds in this session on this device; null for an observer. */
export function postHeld(state: SessionState, person: { id: string; device: string }): Post | null {
  return (
    POSTS.find((p) => state.posts[p]?.id === person.id && state.posts[p]?.device === person.device) ?? null
  );
}
