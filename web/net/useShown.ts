import { useEffect } from "react";
import type { Post } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Connection } from "./connection.ts";

/** Largest number of signals in one report. */
const AT_ONCE = 50;

/** Returns ids of signals to this post that no device has reported as shown yet. */
export function unreported(state: SessionState, post: Post): number[] {
  return state.signals
    .filter((s) => s.to.includes(post) && s.delivered[post] === undefined)
    .map((s) => s.id)
    .slice(0, AT_ONCE);
}

/**
 * Reports for the device which signals to its post it shows. The report is neither an answer nor a touch of the
 * person.
 */
export function useShown(
  connection: Connection,
  state: SessionState | null,
  post: Post | null,
  now: number,
): void {
  const shown = state && post ? unreported(state, post) : [];
  const key = shown.join(" ");
  // Repeats at every tick until the record contains the report; the connection sends each signal only once at a time.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each `now` triggers another attempt
  useEffect(() => {
    if (post === null || key === "" || document.visibilityState !== "visible") return;
    connection.reportShown(post, key.split(" ").map(Number));
  }, [key, connection, post, now]);
}
