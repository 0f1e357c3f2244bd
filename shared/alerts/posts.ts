import { isTurning } from "../engine/life.ts";
import { neededPosts } from "../posts/needed.ts";
import { missedPosts } from "../posts/presence.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { AlertDefinition } from "./definition.ts";

/** Returns the needed posts that nobody holds while an engine turns. */
export function vacantPosts(state: SessionState): Post[] {
  if (!state.engines.some((e) => isTurning(e.life))) return [];
  return neededPosts(state).filter((post) => state.posts[post] === null);
}

/** An alarm: an engine turns and nobody guards, powers or watches it, so somebody must take the post at once. */
export const postVacant: AlertDefinition<"postVacant"> = {
  to: POSTS,
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: null,
  about: "aircraft",
  lasts: (state) => vacantPosts(state).length > 0,
};

/** A warning: nothing is known to be wrong, but somebody must look for the person. */
export const postSilent: AlertDefinition<"postSilent"> = {
  to: ["cockpit", "supervisor"],
  priority: "warning",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: null,
  about: "aircraft",
  lasts: (state, now) => missedPosts(state, now).length > 0,
};
