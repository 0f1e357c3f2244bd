import type { Panel } from "./model.ts";

/** Returns what a panel says while nothing is asked of its post. */
export function idleWords({
  state,
  post,
  words: { say, text },
}: Pick<Panel, "state" | "post" | "words">): string {
  if (state.stage === "closed") return text.ask.closed;
  if (state.stage === "abandoned") {
    // Nothing is asked in a session that is over, but a live cable is nobody's to forget.
    if (post === "groundPower" && state.groundPower.is === "on") return text.ask.abandonedPower;
    return text.ask.abandoned;
  }
  return post === null ? text.ask.watching : say.idle(post);
}
