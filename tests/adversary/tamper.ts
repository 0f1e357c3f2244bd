import type { Fact, SessionEvent } from "../../shared/protocol/events.ts";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import { CREW } from "../spec/given.ts";
import type { AnyEvent } from "./sealed.ts";
import type { Records } from "./stories.ts";

/** A fact, loosely: what a forger writes need not fit the schema. */
type Loose = { type: string; [member: string]: unknown };
type Match = (fact: Loose, event: AnyEvent) => boolean;

/** One forged event: its fact, and where the forger changed them, who did it and when. */
export interface Forged {
  fact?: Loose;
  actor?: unknown;
  at?: number;
  command?: string | null;
}

const factOf = (event: AnyEvent) => event.fact as unknown as Loose;

export const sent =
  (kind: SignalKind, engine?: number): Match =>
  (fact) =>
    fact.type === "sent" && fact.kind === kind && (engine === undefined || fact.engine === engine);

export const ofType =
  (type: Fact["type"] | "contributed" | "reported"): Match =>
  (fact) =>
    fact.type === type;

/** Place of the nth event that matches. Throws when there is none: a forgery of nothing would prove nothing. */
export function place(events: readonly AnyEvent[], match: Match, nth = 0): number {
  const places = events.flatMap((event, i) => (match(factOf(event), event) ? [i] : []));
  const found = places.at(nth);
  if (found === undefined) throw new Error("the story has no such event");
  return found;
}

/** The events with one of them changed. */
export function forged(events: readonly AnyEvent[], i: number, change: Forged): AnyEvent[] {
  return events.map((event, k) => (k === i ? ({ ...event, ...change } as AnyEvent) : event));
}

/** The events with one of them replaced by a touch of the panel: its number stays, what it said is gone. */
export function erased(events: readonly AnyEvent[], i: number): AnyEvent[] {
  return forged(events, i, { fact: { type: "present", post: "supervisor" } });
}

/** The fact of an event with members changed. */
export function changed(event: AnyEvent | undefined, members: object): Loose {
  if (!event) throw new Error("the story has no such event");
  return { ...factOf(event), ...members };
}

export function actorOf(post: keyof typeof CREW): SessionEvent["actor"] {
  const { id, name, device } = CREW[post];
  return { kind: "person", id, name, post, device };
}

/** The records with those of one session changed. */
export function inSession(
  records: Records,
  index: number,
  change: (events: AnyEvent[]) => AnyEvent[],
): Records {
  return { ...records, sessions: records.sessions.map((s, i) => (i === index ? change(s) : s)) };
}

/** Takes from what a session was told everything of these kinds. */
export function untold(events: readonly AnyEvent[], ...kinds: string[]): AnyEvent[] {
  return events.map((event) => {
    const fact = factOf(event);
    const standing = fact.standing as { items: { item: { is: string } }[] } | undefined;
    if (!standing) return event;
    const items = standing.items.filter((i) => !kinds.includes(i.item.is));
    return { ...event, fact: { ...fact, standing: { ...standing, items } } } as unknown as AnyEvent;
  });
}

/** Every event from place `i` on at another time. */
export function shifted(events: readonly AnyEvent[], i: number, byMs: number): AnyEvent[] {
  return events.map((event, k) => (k < i ? event : { ...event, at: event.at + byMs }));
}
