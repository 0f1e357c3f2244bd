import { type Ask, ask, choice } from "../asks/ask.ts";
import { PRESENT } from "../asks/inOrder.ts";
import type { Post } from "../protocol/posts.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { neededPosts } from "./needed.ts";
import { silence, silenceLimits } from "./presence.ts";

/** Returns the ask to confirm the brief, for a person who took the post after the plan. */
export function briefAsk(state: SessionState, post: Post): Ask[] {
  const holder = state.posts[post];
  if (!holder || holder.briefed || state.stage === "plan") return [];
  return [
    ask({
      key: "brief",
      say: "brief",
      weight: 3,
      choices: [choice("briefed", "yes", { type: "confirmBrief" })],
    }),
  ];
}

/** Returns the ask for a touch, before silence becomes a hold or an alert. There is none while a stop is open. */
export function presenceAsk(state: SessionState, post: Post, now: number): Ask[] {
  if (!neededPosts(state).includes(post) || stopOpen(state)) return [];
  const silent = silence(state, post, now);
  const { asked, lapsed } = silenceLimits(state, post);
  if (silent === null || silent < asked) return [];
  return [
    ask({
      key: PRESENT,
      say: "present",
      weight: 2,
      since: now - silent,
      dueAt: now - silent + lapsed,
      choices: [choice("present", "yes", { type: "present" })],
    }),
  ];
}
