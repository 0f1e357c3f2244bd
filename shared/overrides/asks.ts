import { type Ask, ask, choice } from "../asks/ask.ts";
import type { Post } from "../protocol/posts.ts";
import { isAnother } from "../session/another.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the ask to the second of two people, who must enter the engine again and a reason of their own. */
export function overrideAsks(state: SessionState, post: Post): Ask[] {
  if (post !== "cockpit" && post !== "supervisor") return [];
  const me = state.posts[post];
  return state.overrides
    .filter((o) => o.second === null && me !== null && isAnother(me, o.first))
    .map((o) =>
      ask({
        key: `override:${o.id}`,
        say: "override",
        weight: 2,
        engine: o.engine,
        from: o.first.name,
        since: o.first.at,
        dueAt: o.first.at + state.type.timing.override.value * 1000,
        detail: { is: "condition", condition: o.condition },
        choices: [
          choice(
            "override",
            "no",
            { type: "override", condition: o.condition, engine: o.engine, reason: o.first.reason },
            { is: "engineAndReason" },
          ),
        ],
      }),
    );
}
