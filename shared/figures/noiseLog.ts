import { isTurning } from "../engine/life.ts";
import type { SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import { evolve } from "../session/evolve.ts";
import { isOver, type SessionState } from "../session/state.ts";

/** A person's time at one post while any engine turned, server milliseconds; `to` is null while it continues. */
export interface NoiseSpan {
  person: string;
  name: string;
  post: Post;
  from: number;
  to: number | null;
}

/** A session as far as its events are known, and the people in its noise at each time. */
export interface NoiseLog {
  state: SessionState;
  spans: readonly NoiseSpan[];
}

/** Returns the log after one more event. When the session ends, every open span ends. */
export function noiseAfter(before: NoiseLog | null, event: SessionEvent): NoiseLog {
  const state = evolve(before?.state ?? null, event);
  const spans = before?.spans ?? [];
  const loud = !isOver(state) && state.engines.some((e) => isTurning(e.life));
  const there = (s: { person: string; post: Post }) => loud && state.posts[s.post]?.id === s.person;
  const begun = POSTS.flatMap((post): NoiseSpan[] => {
    const holder = state.posts[post];
    if (!loud || !holder) return [];
    const on = spans.some((s) => s.to === null && s.post === post && s.person === holder.id);
    return on ? [] : [{ person: holder.id, name: holder.name, post, from: event.at, to: null }];
  });
  const ended = spans.some((s) => s.to === null && !there(s));
  if (begun.length === 0 && !ended) return { state, spans };
  const kept = ended ? spans.map((s) => (s.to === null && !there(s) ? { ...s, to: event.at } : s)) : spans;
  return { state, spans: [...kept, ...begun] };
}

/** Returns the log of a whole session; null for no events. */
export function noiseLogOf(events: readonly SessionEvent[]): NoiseLog | null {
  return events.reduce<NoiseLog | null>(noiseAfter, null);
}
