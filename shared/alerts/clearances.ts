import { POSTS } from "../protocol/posts.ts";
import type { AlertDefinition } from "./definition.ts";
import { needsPerson } from "./machine.ts";

/**
 * A clearance ended without use. A warning to the post that got it and the post that gave it, so that neither goes on
 * as if it stood. It lasts until both have seen it.
 */
export const clearanceVoid: AlertDefinition<"clearanceVoid"> = {
  to: ["cockpit", "supervisor"],
  priority: "warning",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: null,
  about: "message",
  begun: (state) => (state.voided ?? []).map(({ id, engine }) => ({ ref: id, engine })),
  lasting: (state) =>
    state.alerts
      .filter((a) => a.kind === "clearanceVoid")
      .filter((a) => POSTS.some((p) => state.posts[p] !== null && needsPerson(a.posts[p] ?? "normal")))
      .flatMap((a) => a.ref ?? []),
};
