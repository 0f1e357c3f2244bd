import type { SessionEvent } from "../../protocol/events.ts";
import type { RecordEvent } from "../../protocol/recordEvents.ts";
import { IN_FACT, IN_RECORD_FACT, type Part } from "./facts.ts";
import type { Written } from "./written.ts";

/** Kinds of events in which somebody may have written. Every other event can be passed over unread. */
export const WITH_WRITING: ReadonlySet<string> = new Set(
  Object.entries({ ...IN_FACT, ...IN_RECORD_FACT }).flatMap(([type, find]) => (find ? [type] : [])),
);

/** Returns the writings of one event of a session. */
export function writtenIn(event: SessionEvent, aircraft: string): Written[] {
  const find = IN_FACT[event.fact.type] as ((fact: typeof event.fact) => Part[]) | null;
  return whole(event, aircraft, find?.(event.fact) ?? []);
}

/** Returns the writings of one event of an aircraft's own record. */
export function writtenInRecord(event: RecordEvent, aircraft: string): Written[] {
  const find = IN_RECORD_FACT[event.fact.type] as ((fact: typeof event.fact) => Part[]) | null;
  return whole(event, aircraft, find?.(event.fact) ?? []);
}

function whole(event: SessionEvent | RecordEvent, aircraft: string, parts: readonly Part[]): Written[] {
  const { session, seq, at, actor } = event;
  const by = actor.kind === "person" ? actor.name : null;
  const post = actor.kind === "person" ? actor.post : null;
  return parts.map(({ kind, engine = null, people = [], words = null, refused = null }, part) => ({
    ...{ session, seq, part, at, aircraft, kind, engine },
    ...{ by, post: post ?? postTaken(event), people, words, refused },
  }));
}

/** Returns the post that somebody takes: at that moment they hold none. */
const postTaken = ({ fact }: SessionEvent | RecordEvent) => (fact.type === "postTaken" ? fact.post : null);
