import { POSTS } from "../protocol/posts.ts";
import { lightningStop } from "../weather/lightning.ts";
import type { AlertDefinition } from "./definition.ts";

/**
 * Lightning stops work by the type's limit. An alarm to all, because everybody outside is in danger at once. A type
 * without a limit for lightning raises none.
 */
export const lightning: AlertDefinition<"lightning"> = {
  to: POSTS,
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: null,
  about: "aircraft",
  lasts: (state, now) => lightningStop(state, now) !== null,
};
