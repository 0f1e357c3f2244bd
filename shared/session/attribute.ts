import type { SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Attribution } from "./attribution.ts";

/** Returns the post that gave a signal: the one a witness saw, or the sender's; null for a person without a post. */
export function giverOf({ actor }: SessionEvent, { seenFrom }: { seenFrom?: Post | undefined }): Post | null {
  return seenFrom ?? (actor.kind === "person" ? actor.post : null);
}

/** Returns who reported something, from the event's envelope. */
export function attributionOf(event: SessionEvent, seenFrom: Post | null): Attribution {
  const { actor } = event;
  return {
    at: event.at,
    seq: event.seq,
    post: actor.kind === "person" ? actor.post : null,
    name: actor.kind === "person" ? actor.name : "Chockside",
    seenFrom,
  };
}
