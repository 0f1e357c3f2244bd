import { z } from "zod";

/** Duty stations of a start session. Observers hold none. */
export const POSTS = ["cockpit", "fireGuard", "groundPower", "supervisor"] as const;
export const postSchema = z.enum(POSTS);
export type Post = z.infer<typeof postSchema>;

export function otherPosts(post: Post | null): Post[] {
  return POSTS.filter((p) => p !== post);
}
