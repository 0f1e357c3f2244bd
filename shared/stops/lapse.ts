import { acknowledgeFor } from "../alerts/evolve.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import { attributionOf } from "../session/attribute.ts";
import type { Hold, SessionState } from "../session/state.ts";
import { latched } from "./latch.ts";

/** Returns the state after a hold for one silent post, which only older records have. */
export function evolveLapse(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"presenceLapsed">,
): SessionState {
  const by = { ...attributionOf(event, null), post: fact.post, name: state.posts[fact.post]?.name ?? "" };
  const hold = { id: event.seq, by, person: null, note: `silent ${fact.post}` };
  const stopped = latched(state);
  return { ...stopped, holds: [...stopped.holds, hold] };
}

/** Returns the state after needed posts fell silent: one hold of the system that names them all. */
export function evolveSilence(
  state: SessionState,
  event: SessionEvent,
  { posts }: FactOf<"silenceHeld">,
): SessionState {
  const name = posts.map((post) => state.posts[post]?.name ?? "").join(", ");
  const by = { ...attributionOf(event, null), post: posts[0] ?? null, name };
  const hold: Hold = { id: event.seq, by, person: null, note: ["silent", ...posts].join(" "), silent: posts };
  const stopped = latched(state);
  return { ...stopped, holds: [...stopped.holds, hold] };
}

/** Returns the state after a post showed that it is present, which acknowledges a hold that names it. */
export function evolvePresent(state: SessionState, { post }: FactOf<"present">): SessionState {
  return state.holds
    .filter((h) => h.silent?.includes(post))
    .reduce((before, h) => acknowledgeFor(before, h.id, post), state);
}

/** Returns the posts that a hold names and that are held by a person who has not been heard since. */
export function unheardOf(state: SessionState, hold: Hold): Post[] {
  return (hold.silent ?? []).filter((post) => {
    const holder = state.posts[post];
    return holder !== null && holder.touchedAt < hold.by.at;
  });
}
