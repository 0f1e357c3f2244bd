import type { SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";

/** That a person held a post as an engine caught, server milliseconds. */
export interface StartAt {
  personId: string;
  post: Post;
  at: number;
}

/** Returns each person's last start at each post in one session: the last moment an engine caught while they held it. */
export function startsIn(events: readonly SessionEvent[]): StartAt[] {
  const holders = new Map<Post, string>();
  const last = new Map<string, StartAt>();
  for (const { actor, at, fact } of events) {
    if (fact.type === "postTaken" && actor.kind === "person") holders.set(fact.post, actor.id);
    if (fact.type === "postLeft") holders.delete(fact.post);
    if (fact.type !== "sent" || fact.kind !== "caught") continue;
    for (const post of POSTS) {
      const personId = holders.get(post);
      if (personId !== undefined) last.set(`${post} ${personId}`, { personId, post, at });
    }
  }
  return [...last.values()];
}
