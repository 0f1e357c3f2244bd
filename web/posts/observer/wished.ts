import { POSTS, type Post } from "../../../shared/protocol/posts.ts";

const KEY = "chockside.wish";

/** Remembers, for this window, the post that a person wants in a session which is not open yet. */
export function wishFor(session: string, post: Post): void {
  sessionStorage.setItem(KEY, `${session} ${post}`);
}

/** Returns the post that the person wanted in this session, once; null for none. */
export function takeWish(session: string): Post | null {
  const [of, wanted] = (sessionStorage.getItem(KEY) ?? "").split(" ");
  if (of !== session) return null;
  sessionStorage.removeItem(KEY);
  return POSTS.find((p) => p === wanted) ?? null;
}
