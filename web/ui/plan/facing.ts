import type { Facing } from "../../../shared/models/facing.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { Text } from "../../words/en/text.ts";

export function usualFacing(post: Post | null): Facing {
  return post === "cockpit" ? "forward" : "nose";
}

/** Returns the direction the person faces, in words. */
export function facingWords(facing: Facing, post: Post | null, { plan }: Text): string {
  if (facing === "nose") return plan.nose;
  return post === "cockpit" ? plan.cockpit : plan.tail;
}
