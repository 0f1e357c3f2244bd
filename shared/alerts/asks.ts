import { type Ask, ask, choice } from "../asks/ask.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import { ALERTS } from "./kinds.ts";
import { needsPerson } from "./machine.ts";

/** Alerts that this post has not acknowledged, or must see gone. */
export function alertAsks(state: SessionState, post: Post): Ask[] {
  // A stop's own signal asks for the same answer while it is open.
  const asked = new Set(
    state.signals.filter((s) => s.due.includes(post) && !s.answers[post]).map((s) => s.id),
  );
  return state.alerts
    .filter((a) => needsPerson(a.posts[post] ?? "normal"))
    .filter((a) => a.ref === null || a.kind === "unanswered" || !asked.has(a.ref))
    .map((a) =>
      ask({
        key: `alert:${a.id}`,
        say: `alert.${a.kind}`,
        weight: 1,
        engine: a.engine,
        since: a.at,
        choices: [
          choice("acknowledge", "plain", { type: "acknowledgeAlert", alert: a.id }),
          ...(ALERTS[a.kind].latching
            ? []
            : [choice("shelve", "plain", { type: "shelveAlert", alert: a.id, minutes: 5 })]),
        ],
      }),
    );
}
