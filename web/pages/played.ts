import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { DemoSignIn } from "../net/api.ts";

/** The two ways in for a newcomer to the demo: watch a crew rehearse, or take one post of it. */
export type Play = Post | "watch";

export const PLAYS: readonly Play[] = ["watch", ...POSTS];

export const playOf = (text: string | null): Play | null => PLAYS.find((p) => p === text) ?? null;

/** The post that the person takes; null to watch. */
export const postOf = (play: Play): Post | null => (play === "watch" ? null : play);

/**
 * Returns the demo's person for a newcomer: for a post the one who may hold the fewest others; to watch, the one who may hold the most.
 */
export function personFor(play: Play, signIns: readonly DemoSignIn[]): DemoSignIn | null {
  const able = signIns.filter((s) => play === "watch" || s.mayHold.includes(play));
  const sorted = able.toSorted((a, b) => a.mayHold.length - b.mayHold.length);
  return (play === "watch" ? sorted.at(-1) : sorted[0]) ?? null;
}
