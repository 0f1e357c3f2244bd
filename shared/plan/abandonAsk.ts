import { type Ask, ask, choice } from "../asks/ask.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import { abandonAsked, abandonUntil } from "./abandon.ts";

/** Returns the ask to the second of the two people who agree to abandon the session; the first one is told to wait. */
export function abandonAsk(state: SessionState, post: Post, now: number): Ask[] {
  const me = post === "cockpit" || post === "supervisor" ? state.posts[post] : null;
  const asked = abandonAsked(state, now);
  if (!me || !asked) return [];
  const about = { since: asked.at, dueAt: abandonUntil(state, asked) };
  if (asked.person === me.id || asked.device === me.device) {
    return [ask({ ...about, key: `abandonWaits:${asked.at}`, say: "abandonWaits", weight: 4 })];
  }
  return [
    ask({
      ...about,
      key: `abandon:${asked.at}`,
      say: "abandon",
      weight: 2,
      from: asked.name,
      detail: { is: "reason", words: asked.reason },
      choices: [choice("abandon", "no", { type: "abandon", reason: asked.reason })],
    }),
  ];
}
