import { silence } from "../../../shared/posts/presence.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import { type SessionState, stopOpen } from "../../../shared/session/state.ts";

/** Least time between two reports of a touch, and the age of a recorded touch that makes a new report worth sending. */
export const TOUCH_EVERY_MS = 5_000;

/**
 * Returns whether the panel should report a touch now: presence counts, no stop stands, and the record's last touch of
 * this post and this device's last report are old enough. A stop wants an answer of its own, never a stray touch.
 */
export function touchDue(state: SessionState, post: Post, now: number, reportedAt: number | null): boolean {
  const silent = silence(state, post, now);
  if (silent === null || silent < TOUCH_EVERY_MS || stopOpen(state)) return false;
  return reportedAt === null || now - reportedAt >= TOUCH_EVERY_MS;
}
