import { POSTS, type Post } from "../protocol/posts.ts";
import { typeIn } from "../words/authored.ts";
import { sayActor } from "../words/events.ts";
import { outcomesOf } from "../words/outcomes.ts";
import type { Say } from "../words/say.ts";
import type { Moment } from "./moments.ts";

export interface DrillRow {
  id: number;
  title: string;
  engine: number | null;
  at: number;
  steps: {
    post: Post;
    words: string;
    /** Null until a person marked it. */
    marked: { done: boolean; at: number; by: string; note: string | null } | null;
  }[];
  ended: { at: number; by: string; outcome: string } | null;
}

/** Returns every drill that was worked, with each post's steps. */
export function drillLog(moments: readonly Moment[], say: Say): DrillRow[] {
  const rows = new Map<number, DrillRow>();
  for (const { event, after } of moments) {
    const { fact, at, seq } = event;
    if (fact.type === "drillStarted") {
      const drill = typeIn(after.type, say.language).drills.find((d) => d.id === fact.drill);
      const steps = POSTS.flatMap((post) =>
        (drill?.cards[post] ?? []).map(({ words }) => ({ post, words, marked: null })),
      );
      const title = drill?.title ?? fact.drill;
      rows.set(seq, { id: seq, title, engine: fact.engine ?? null, at, steps, ended: null });
    }
    if (fact.type === "drillStepped") {
      const step = rows.get(fact.run)?.steps.filter((s) => s.post === fact.post)[fact.step];
      if (step) step.marked = { done: fact.done, at, by: sayActor(event, say), note: fact.note ?? null };
    }
    if (fact.type === "drillEnded") {
      const row = rows.get(fact.run);
      if (row)
        row.ended = { at, by: sayActor(event, say), outcome: outcomesOf(say).drillOutcome(fact.outcome) };
    }
  }
  return [...rows.values()];
}
