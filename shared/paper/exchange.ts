import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import type { SessionEvent } from "../protocol/events.ts";
import { otherPosts, POSTS, type Post } from "../protocol/posts.ts";
import { signalOf } from "../signals/all.ts";
import type { AircraftType } from "../types/schema.ts";
import { eventWords, type Lookup, lookupOf, sayEvent, sayRefused } from "../words/events.ts";
import type { Say } from "../words/say.ts";

export interface Column {
  id: string;
  name: string;
}

interface Base {
  seq: number;
  at: number;
  text: string;
}
export type ExchangeRow =
  | (Base & {
      is: "arrow" | "answer" | "refused";
      from: string;
      to: readonly string[];
      tone: "plain" | "hold" | "danger";
      /** Hand or interphone; null when it came from a panel. */
      by: string | null;
    })
  | (Base & {
      is: "note";
      tone: "plain" | "quiet" | "warning" | "stage";
      /** The line it belongs to; null when it concerns all posts. */
      on: string | null;
    });

/** Returns one vertical line per post, and one for people without a post. */
export const columnsOf = (say: Say): Column[] => [
  ...POSTS.map((p) => ({ id: p, name: say.post(p) })),
  { id: "none", name: say.post(null) },
];

/** Reports of presence and delivery are in the record; they would crowd the chart. */
const UNDRAWN = ["delivered", "present", "alertEnded", "alertReset"];

function isDrawn({ fact }: SessionEvent): boolean {
  // The end of a clearance is drawn; its alert would say it twice.
  if (fact.type === "alertRaised") return fact.kind !== "clearanceVoid";
  if (fact.type === "refused") return fact.action.type !== "delivered";
  return !UNDRAWN.includes(fact.type);
}
const QUIET = ["starterCooled", "reading", "checked", "alertAcknowledged"];

/**
 * Returns the rows of the exchange chart, in order of time (the idea of ITU-T Z.120's message sequence charts).
 * @param type the type of the session, for a list of events that does not begin with the plan
 * @param after only the rows of events with a greater number; an event's row depends on no later event
 */
export function exchangeRows(
  events: readonly SessionEvent[],
  say: Say,
  units: UnitChoice = AS_READ,
  type: AircraftType | null = null,
  after = 0,
): ExchangeRow[] {
  const lookup = lookupOf(events, say, type);
  return events
    .filter((event) => event.seq > after && isDrawn(event))
    .map((event) => row(event, lookup, units));
}

function row(event: SessionEvent, lookup: Lookup, units: UnitChoice): ExchangeRow {
  const { fact, actor, seq, at } = event;
  const { say } = lookup;
  const words = eventWords(say);
  const own: Post | "none" = actor.kind === "person" ? (actor.post ?? "none") : "none";
  const base = { seq, at, text: sayEvent(event, lookup, units) };
  switch (fact.type) {
    case "sent": {
      const from = fact.seenFrom ?? own;
      const { to: addressed, tone } = signalOf(fact.kind);
      const to = addressed(from === "none" ? null : from);
      return {
        ...base,
        is: "arrow",
        from,
        to,
        tone,
        by: fact.channel === "panel" ? null : words.channels[fact.channel],
      };
    }
    case "answered": {
      const about = lookup.sent.get(fact.signal);
      const word = say.answer(fact.answer);
      const engine = fact.engine === undefined ? "" : ` ${fact.engine}`;
      const to = about?.seenFrom ?? lookup.senders.get(fact.signal) ?? null;
      const failed = fact.right === false || fact.answer === "unable";
      if (to === null || to === own)
        return { ...base, is: "note", on: own, tone: failed ? "warning" : "plain" };
      const text = `${word}${engine}${fact.right === false ? `, ${words.wrong}` : ""}`;
      return {
        ...base,
        text,
        is: "answer",
        from: own,
        to: [to],
        tone: failed ? "danger" : "plain",
        by: null,
      };
    }
    case "refused": {
      const to = otherPosts(own === "none" ? null : own);
      return {
        ...base,
        text: words.refused(sayRefused(fact, lookup, units)),
        is: "refused",
        from: own,
        to,
        tone: "danger",
        by: null,
      };
    }
    case "overrideEnded":
      return { ...base, is: "note", on: null, tone: fact.why === "used" ? "plain" : "warning" };
    case "clearanceVoid":
    case "requestWithdrawn":
    case "fireOutLapsed":
    case "late":
    case "alertRaised":
    case "restarted":
    case "clockStepped":
      return { ...base, is: "note", on: null, tone: "warning" };
    case "stageReached":
      return { ...base, is: "note", on: null, tone: "stage" };
    default:
      return {
        ...base,
        is: "note",
        on: own === "none" ? null : own,
        tone: QUIET.includes(fact.type) ? "quiet" : "plain",
      };
  }
}
