import { POSTS, type Post } from "../protocol/posts.ts";
import { isOver, type SessionState } from "../session/state.ts";

/** Returns the posts that are offered to a person in a session; none once it is over. */
export function offeredTo(state: SessionState, person: string): Post[] {
  return isOver(state) ? [] : POSTS.filter((post) => state.offers[post]?.to === person);
}
