import type { ConditionId } from "../protocol/conditions.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";

/** One condition's answer for one engine at one moment. */
export interface Finding {
  /** `unknown`: nobody has said. `stale`: somebody said, too long ago. */
  is: "yes" | "no" | "stale" | "unknown";
  /** When it was said, server milliseconds. */
  at: number | null;
  /** Who said so. */
  by: { post: Post | null; name: string } | null;
  /** Server milliseconds at which a yes goes stale or a no becomes yes by itself; null if time alone changes nothing. */
  until: number | null;
  /** The fact that decided, for the words: an engine number, a figure with its unit, a name. */
  found?: string | undefined;
}

export interface Condition {
  id: ConditionId;
  /** The posts that can meet it. */
  owners: readonly Post[];
  find(state: SessionState, engine: number, now: number): Finding;
}
