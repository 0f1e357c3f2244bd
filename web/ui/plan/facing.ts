import type { Post } from "../../../shared/protocol/posts.ts";

/**
 * How the person stands. `forward`: seated, looking where the aircraft points, as somebody facing its tail from behind
 * also does. `nose`: before the aircraft, looking at its nose, so that engine 1 comes last from the left
 * (UK SI 2007/3468 r.63(5): numbered in relation to the marshaller facing the aircraft, from his right to his left).
 */
export type Facing = "forward" | "nose";

export function usualFacing(post: Post | null): Facing {
  return post === "cockpit" ? "forward" : "nose";
}

/** Engine numbers in the order they come on screen, from the screen's left. `engines` are listed from port. */
export function inViewOrder<T>(engines: readonly T[], facing: Facing): T[] {
  return facing === "forward" ? [...engines] : [...engines].reverse();
}

export function facingWords(facing: Facing, post: Post | null): string {
  if (facing === "nose") return "Drawn as you face the nose";
  return post === "cockpit" ? "Drawn as you sit, facing forward" : "Drawn as you face the tail, from behind";
}
