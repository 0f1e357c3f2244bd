import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { DemoSignIn } from "./api.ts";

/**
 * Chooses a qualified demo person for each post, except those in `spokenFor`. People with the fewest qualifications
 * come first, so that the versatile ones stay free for real users.
 * @returns null for a post that nobody is left for
 */
export function cast(
  posts: readonly Post[],
  signIns: readonly DemoSignIn[],
  spokenFor: ReadonlySet<string>,
): Map<Post, DemoSignIn | null> {
  const used = new Set(spokenFor);
  const chosen = new Map<Post, DemoSignIn | null>();
  for (const post of POSTS.filter((p) => posts.includes(p))) {
    const free = signIns.filter((s) => s.mayHold.includes(post) && !used.has(s.handle));
    const who = free.sort((a, b) => a.mayHold.length - b.mayHold.length)[0] ?? null;
    if (who) used.add(who.handle);
    chosen.set(post, who);
  }
  return chosen;
}
