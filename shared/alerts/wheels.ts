import { POSTS } from "../protocol/posts.ts";
import { mayRoll as isFree } from "../wheels/mayRoll.ts";
import type { AlertDefinition } from "./definition.ts";

/** Nothing is reported to hold an aircraft whose engine turns. An alarm to all: whoever stands near must get away. */
export const mayRoll: AlertDefinition<"mayRoll"> = {
  to: POSTS,
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: "alert:mayRoll",
  about: "aircraft",
  lasts: isFree,
};
