import type { Post } from "../../../shared/protocol/posts.ts";
import type { Panel } from "./model.ts";

/**
 * Returns the post whose items of the card this person answers: their own, or the cockpit's for a second person there
 * who is qualified for it and holds no post. Null for anybody else.
 */
export function cardPost({ post, me, state }: Pick<Panel, "post" | "me" | "state">): Post | null {
  if (post !== null) return post;
  const holds = Object.values(state.posts).some((holder) => holder?.id === me.id);
  return !holds && me.mayHold.includes("cockpit") ? "cockpit" : null;
}
