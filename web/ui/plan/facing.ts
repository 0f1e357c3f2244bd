import type { Facing } from "../../../shared/models/facing.ts";
import type { Post } from "../../../shared/protocol/posts.ts";

export function usualFacing(post: Post | null): Facing {
  return post === "cockpit" ? "forward" : "nose";
}

/** How the person stands to see the drawing as it is, in words. */
export function facingWords(facing: Facing, post: Post | null): string {
  if (facing === "nose") return "Drawn as you face the nose";
  return post === "cockpit" ? "Drawn as you sit, facing forward" : "Drawn as you face the tail, from behind";
}
