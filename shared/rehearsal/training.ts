import { canonical } from "../evidence/canonical.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import { isPartner } from "../protocol/rehearsal.ts";
import { type Measures, measuresOf } from "./measures.ts";
import type { RehearsalScript } from "./script.ts";

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
  /** Its title, where the record holds the script. */
  title: RehearsalScript["title"] | null;
  /** True when it began at a moment of another rehearsal: nobody finishes such a one. */
  takenBack: boolean;
  /** Two rehearsals are the same to rehearse by this: the script as played, and the type. Null: not known. */
  like: string | null;
  measures: Measures;
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
 * up finishes nothing, and neither is one that was taken back. At the desk were those who wrote a mark or a word there,
 * who took it back, and who began it and took no post. What is retold from another rehearsal was done there.
 */
export function trainedIn(events: readonly SessionEvent[]): Trained | null {
  const [first] = events;
  if (first?.fact.type !== "planned" || !first.fact.rehearsal) return null;
  const { order, rehearsal, aircraftType } = first.fact;
  const { back, played } = rehearsal;
  const done = new Map<string, Training>();
  const held = new Map<Post, { personId: string; since: number }>();
  const started = new Set<number>();
  const desk = new Set<string>();
  const begun = events.find(({ seq }) => seq === back?.seq)?.at ?? first.at;
  let finished = false;
  const leave = (post: Post, at: number) => {
    const { personId, since } = held.get(post) ?? {};
    const row = personId === undefined ? undefined : done.get(`${post} ${personId}`);
    if (row && since !== undefined) row.seconds += (at - since) / 1000;
    held.delete(post);
  };
  const finish = (at: number) => {
    if (finished || back) return;
    finished = true;
    for (const [post, { personId }] of held) {
      const row = done.get(`${post} ${personId}`);
      if (row) row.finishedAt = at;
    }
  };
  for (const { seq, actor, at: told, fact } of events) {
    // The holder of a post at the moment begins there.
    const at = Math.max(told, begun);
    if (fact.type === "postTaken") {
      leave(fact.post, at);
      if (actor.kind !== "person" || isPartner(actor.id)) continue;
      const key = `${fact.post} ${actor.id}`;
      if (!done.has(key))
        done.set(key, { personId: actor.id, post: fact.post, at, seconds: 0, finishedAt: null });
      held.set(fact.post, { personId: actor.id, since: at });
    }
    if (fact.type === "postLeft") leave(fact.post, at);
    if (fact.type === "rehearsed" && seq > (back?.seq ?? 0)) {
      const { said } = fact;
      if (said.is === "mark" || said.is === "word" || said.is === "goesOn") desk.add(said.by.id);
    }
    if (fact.type === "sent" && fact.kind === "started" && fact.engine !== undefined)
      started.add(fact.engine);
    if (order.every((n) => started.has(n))) finish(at);
    if (fact.type !== "stageReached") continue;
    if (fact.stage === "closed") finish(at);
    if (fact.stage === "closed" || fact.stage === "abandoned")
      for (const post of [...held.keys()]) leave(post, at);
  }
  const of = [...done.values()]
    .map((row) => ({ ...row, seconds: Math.round(row.seconds) }))
    // Somebody who had left by the moment did nothing here.
    .filter(({ seconds }) => !back || seconds > 0);
  const by = first.actor.kind === "person" ? first.actor.id : null;
  if (by !== null && !of.some(({ personId }) => personId === by)) desk.add(by);
  return {
    script: rehearsal.script,
    title: played?.title ?? null,
    takenBack: back !== undefined,
    like: played ? canonical({ played, type: aircraftType.id }) : null,
    measures: measuresOf(events),
    aircraft: rehearsal.of,
    typeName: aircraftType.name,
    of,
    desk: [...desk],
  };
}
