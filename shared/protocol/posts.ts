/** Duty stations of a start session. Observers hold none. */
export const POSTS = ["cockpit", "fireGuard", "groundPower", "supervisor"] as const;
export type Post = (typeof POSTS)[number];

export function otherPosts(post: Post | null): Post[] {
  return POSTS.filter((p) => p !== post);
}
