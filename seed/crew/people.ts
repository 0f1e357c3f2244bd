import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { DemoSignIn } from "./api.ts";

/**
 * Chooses a qualified demo person for each post, except those in `spokenFor`. People with the fewest qualifications
 * come first, so that the versatile ones stay free for real users.
 * @param spares who stays free for real users: the versatile, or those who may hold a single post
 * @returns null for a post that nobody is left for
 */
export function cast(
  posts: readonly Post[],
  signIns: readonly DemoSignIn[],
  spokenFor: ReadonlySet<string>,
  spares: "versatile" | "single" = "versatile",
): Map<Post, DemoSignIn | null> {
  const used = new Set(spokenFor);
  const chosen = new Map<Post, DemoSignIn | null>();
  for (const post of POSTS.filter((p) => posts.includes(p))) {
    const free = signIns.filter((s) => s.mayHold.includes(post) && !used.has(s.handle));
    const who = free.sort((a, b) => rank(a, spares) - rank(b, spares))[0] ?? null;
    if (who) used.add(who.handle);
    chosen.set(post, who);
  }
  return chosen;
}

/** Returns a rank: the least plays first. */
function rank({ mayHold: { length } }: DemoSignIn, spares: "versatile" | "single"): number {
  return spares === "single" && length === 1 ? Number.MAX_SAFE_INTEGER : length;
}
