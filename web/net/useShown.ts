import { useEffect } from "react";
import type { Post } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Link } from "./link.ts";

/** Signals one report may name. */
const AT_ONCE = 50;

/** Signals to this post that no device of it has yet said it shows. */
export function unsaid(state: SessionState, post: Post): number[] {
  return state.signals
    .filter((s) => s.to.includes(post) && s.delivered[post] === undefined)
    .map((s) => s.id)
    .slice(0, AT_ONCE);
}

/** Says for the device which signals to its post it now shows. It is never the person's answer, and never a touch. */
export function useShown(link: Link, state: SessionState | null, post: Post | null, now: number): void {
  const shown = state && post ? unsaid(state, post) : [];
  const key = shown.join(" ");
  // Tried again with every moment that passes until the record says so; the link lets one through at a time.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `now` asks again
  useEffect(() => {
    if (post === null || key === "" || document.visibilityState !== "visible") return;
    link.sayShown(post, key.split(" ").map(Number));
  }, [key, link, post, now]);
}
