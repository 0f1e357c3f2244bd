import type { SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import { isPartner } from "../protocol/rehearsal.ts";

/** What one person did at one post of one rehearsal. Times are server milliseconds. */
export interface Training {
  personId: string;
  post: Post;
  /** When they took the post first. */
  at: number;
  /** Seconds that they held it. */
  seconds: number;
  /** When the rehearsal was finished while they held it; null when it was not. */
  finishedAt: number | null;
}

/** One rehearsal that is over, as it is kept as training. */
export interface Trained {
  script: string;
  /** The registration that was rehearsed. */
  aircraft: string;
  typeName: string;
  of: Training[];
  /** Ids of the people who stood at the instructor's desk. */
  desk: string[];
}

/**
 * Returns what each person did in a rehearsal, from its record alone; null for a start. Partners are nobody.
 * It is finished at the moment at which all of its engines have started, or else at its end by the card: being given
 * up finishes nothing. At the desk were those who wrote a mark or a word there, and who began it and took no post.
 */
export function trainedIn(events: readonly SessionEvent[]): Trained | null {
  const [first] = events;
  if (first?.fact.type !== "planned" || !first.fact.rehearsal) return null;
  const { order, rehearsal, aircraftType } = first.fact;
  const done = new Map<string, Training>();
  const held = new Map<Post, { personId: string; since: number }>();
  const started = new Set<number>();
  const desk = new Set<string>();
  let finished = false;
  const leave = (post: Post, at: number) => {
    const { personId, since } = held.get(post) ?? {};
    const row = personId === undefined ? undefined : done.get(`${post} ${personId}`);
    if (row && since !== undefined) row.seconds += (at - since) / 1000;
    held.delete(post);
  };
  const finish = (at: number) => {
    if (finished) return;
    finished = true;
    for (const [post, { personId }] of held) {
      const row = done.get(`${post} ${personId}`);
      if (row) row.finishedAt = at;
    }
  };
  for (const { actor, at, fact } of events) {
    if (fact.type === "postTaken") {
      leave(fact.post, at);
      if (actor.kind !== "person" || isPartner(actor.id)) continue;
      const key = `${fact.post} ${actor.id}`;
      if (!done.has(key))
        done.set(key, { personId: actor.id, post: fact.post, at, seconds: 0, finishedAt: null });
      held.set(fact.post, { personId: actor.id, since: at });
    }
    if (fact.type === "postLeft") leave(fact.post, at);
    if (fact.type === "rehearsed" && (fact.said.is === "mark" || fact.said.is === "word"))
      desk.add(fact.said.by.id);
    if (fact.type === "sent" && fact.kind === "started" && fact.engine !== undefined)
      started.add(fact.engine);
    if (order.every((n) => started.has(n))) finish(at);
    if (fact.type !== "stageReached") continue;
    if (fact.stage === "closed") finish(at);
    if (fact.stage === "closed" || fact.stage === "abandoned")
      for (const post of [...held.keys()]) leave(post, at);
  }
  const of = [...done.values()].map((row) => ({ ...row, seconds: Math.round(row.seconds) }));
  const by = first.actor.kind === "person" ? first.actor.id : null;
  if (by !== null && !of.some(({ personId }) => personId === by)) desk.add(by);
  return {
    script: rehearsal.script,
    aircraft: rehearsal.of,
    typeName: aircraftType.name,
    of,
    desk: [...desk],
  };
}
