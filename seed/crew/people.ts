import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { DemoSignIn } from "./api.ts";

/**
 * Who of the demo people a crew is made of: for each post somebody qualified who is not spoken for. Those who can do
 * least come first, so that the many-sided ones are left for people to sign in as.
 * @returns null for a post nobody is left for
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
