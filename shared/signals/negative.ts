import { POSTS } from "../protocol/posts.ts";
import { ANNEX } from "./definition.ts";
import { lowering } from "./kinds.ts";

/** "No", said to all others. It changes nothing by itself. */
export const negative = lowering({
  from: POSTS,
  engine: "optional",
  standard: { figure: "negative", text: `${ANNEX} 5.3, negative (from memory)` },
  evolve: (state) => state,
});
