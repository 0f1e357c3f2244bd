import { POSTS } from "../protocol/posts.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import { ANNEX } from "./definition.ts";
import { signal } from "./kinds.ts";

/** "No", from any post to all others. It changes nothing by itself. */
export const negative = signal({
  from: POSTS,
  stages: LIVE_STAGES,
  engine: "optional",
  standard: { figure: "negative", text: `${ANNEX} 5.3, negative (from memory)` },
  evolve: (state) => state,
});
