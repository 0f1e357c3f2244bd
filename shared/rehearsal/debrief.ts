import type { AlertKind } from "../protocol/alerts.ts";
import type { Fact, FactOf, SessionEvent } from "../protocol/events.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { RefusalReason } from "../protocol/refusals.ts";
import type { FaultKind } from "../protocol/rehearsalFaults.ts";
import type { Suffered } from "../protocol/rehearsedFact.ts";
import type { SignalKind } from "../protocol/signals.ts";
import type { AircraftType } from "../types/schema.ts";
import { FAULT } from "./faults.ts";

/** One line of a debrief: what a rule found in the record, and the event at which it stands. */
export type DebriefLine = { seq: number; at: number; good: boolean } & (
  | { is: "answered"; fault: FaultKind; engine: number | null; seconds: number; by: string }
  | { is: "notAnswered"; fault: FaultKind; engine: number | null }
  | { is: "unnecessary"; kind: SignalKind; by: string }
  | { is: "wrongNumber"; by: string }
  | { is: "refused"; reason: RefusalReason; times: number }
  | { is: "drill"; drill: string; done: number; left: number; missed: number; inOrder: boolean }
  | { is: "limit"; limit: FactOf<"exceeded">["limit"]; engine: number; found: number; allowed: number }
  | { is: "alert"; kind: AlertKind; engine: number | null }
  | { is: "suffered"; what: Suffered; engine: number; found: number; allowed: number | null; unit: "K" | "s" }
  | { is: "touches"; post: Post; times: number }
);

const STOPS: readonly SignalKind[] = ["hold", "cut", "cutAll", "fire"];
/** Alerts that only something unsafe raises. */
const UNSAFE: readonly AlertKind[] = ["turningUncleared", "starterLimit", "guardMissing", "revokedTurning"];
/** A stop within this time after a fault that a stop may answer was not unnecessary. Milliseconds. */
const CAUSE_MS = 120_000;

/**
 * Returns what the crew of a rehearsal did, from its record alone, each line by one rule:
 * a fault is answered by the first word that the fault's definition names, and not answered when none came;
 * a stop is unnecessary when no fault that one answers began in the two minutes before it;
 * a number is wrong when a read-back named another engine; every refusal is counted by its reason;
 * of a drill the steps marked done, left and never marked are counted, and each post's order is compared with the card;
 * alerts of something unsafe, limits passed and what the aircraft suffered are those recorded; touches are the commands of each post.
 * Events retold from another rehearsal are causes, and no deeds: they were done there.
 */
export function debriefOf(events: readonly SessionEvent[]): DebriefLine[] {
  const [first] = events;
  if (first?.fact.type !== "planned" || !first.fact.rehearsal) return [];
  const { aircraftType } = first.fact;
  const retold = first.fact.rehearsal.back?.seq ?? 0;
  const own = events.filter(({ seq }) => seq > retold);
  return [
    ...faultLines(events, retold),
    ...stopLines(events).filter(({ seq }) => seq > retold),
    ...refusalLines(own),
    ...drillLines(events, aircraftType, retold),
    ...sufferedLines(own),
    ...touchLines(own),
  ];
}

const nameOf = ({ actor }: SessionEvent): string => (actor.kind === "person" ? actor.name : "Chockside");

const faultOf = (fact: Fact) => (fact.type === "rehearsed" && fact.said.is === "fault" ? fact.said : null);

function answers(fault: FaultKind, fact: Fact): boolean {
  if (fault === "lightning" && fact.type === "flashSeen") return true;
  if (fault === "wrongNumber" && fact.type === "refused") return fact.refusal.reason === "readBackWrong";
  return fact.type === "sent" && FAULT[fault].answers.includes(fact.kind);
}

function faultLines(events: readonly SessionEvent[], retold: number): DebriefLine[] {
  return events.flatMap(({ seq, at, fact }, i): DebriefLine[] => {
    const said = faultOf(fact);
    if (!said || FAULT[said.fault].answers.length === 0) return [];
    const { fault, engine = null } = said;
    const answer = events.slice(i + 1).find((e) => answers(fault, e.fact));
    if (answer && answer.seq <= retold) return [];
    if (!answer) return [{ is: "notAnswered", seq, at, good: false, fault, engine }];
    const seconds = (answer.at - at) / 1000;
    return [
      {
        is: "answered",
        seq: answer.seq,
        at: answer.at,
        good: true,
        fault,
        engine,
        seconds,
        by: nameOf(answer),
      },
    ];
  });
}

function stopLines(events: readonly SessionEvent[]): DebriefLine[] {
  return events.flatMap((event, i): DebriefLine[] => {
    const { fact, seq, at } = event;
    if (fact.type === "answered" && fact.right === false)
      return [{ is: "wrongNumber", seq, at, good: false, by: nameOf(event) }];
    if (fact.type !== "sent" || !STOPS.includes(fact.kind)) return [];
    const { kind } = fact;
    const caused = events.slice(0, i).some((e) => {
      const said = faultOf(e.fact);
      return said !== null && at - e.at <= CAUSE_MS && FAULT[said.fault].answers.includes(kind);
    });
    return caused ? [] : [{ is: "unnecessary", seq, at, good: false, kind, by: nameOf(event) }];
  });
}

function refusalLines(events: readonly SessionEvent[]): DebriefLine[] {
  const by = new Map<RefusalReason, { seq: number; at: number; times: number }>();
  const wrong: DebriefLine[] = [];
  for (const event of events) {
    const { fact, seq, at } = event;
    if (fact.type !== "refused") continue;
    const { reason } = fact.refusal;
    if (reason === "readBackWrong")
      wrong.push({ is: "wrongNumber", seq, at, good: false, by: nameOf(event) });
    else by.set(reason, { seq, at, times: (by.get(reason)?.times ?? 0) + 1 });
  }
  return [
    ...wrong,
    ...[...by].map(([reason, last]): DebriefLine => ({ is: "refused", good: false, reason, ...last })),
  ];
}

function drillLines(events: readonly SessionEvent[], type: AircraftType, retold: number): DebriefLine[] {
  return events.flatMap(({ seq, at, fact }): DebriefLine[] => {
    if (fact.type !== "drillStarted") return [];
    const cards = type.drills.find((d) => d.id === fact.drill)?.cards;
    if (!cards) return [];
    const marked = events.flatMap((e) =>
      e.fact.type === "drillStepped" && e.fact.run === seq ? [e.fact] : [],
    );
    // A drill that was over at the moment was done in the other rehearsal.
    if (
      seq <= retold &&
      !events.some((e) => e.seq > retold && e.fact.type === "drillStepped" && e.fact.run === seq)
    )
      return [];
    const all = POSTS.reduce((sum, post) => sum + cards[post].length, 0);
    const done = marked.filter((m) => m.done).length;
    const inOrder = POSTS.every((post) => {
      const steps = marked.filter((m) => m.post === post).map((m) => m.step);
      return steps.every((step, i) => i === 0 || step > (steps[i - 1] ?? -1));
    });
    const missed = all - marked.length;
    const left = marked.length - done;
    return [
      { is: "drill", seq, at, good: missed === 0 && inOrder, drill: fact.drill, done, left, missed, inOrder },
    ];
  });
}

function sufferedLines(events: readonly SessionEvent[]): DebriefLine[] {
  const last = new Map<string, DebriefLine>();
  const limits: DebriefLine[] = [];
  for (const { seq, at, fact } of events) {
    if (fact.type === "exceeded") {
      const { limit, engine, found, allowed } = fact;
      limits.push({ is: "limit", seq, at, good: false, limit, engine, found, allowed });
    }
    if (fact.type === "alertRaised" && UNSAFE.includes(fact.kind))
      limits.push({ is: "alert", seq, at, good: false, kind: fact.kind, engine: fact.engine ?? null });
    if (fact.type !== "rehearsed" || fact.said.is !== "suffered") continue;
    const { what, engine, found, allowed, unit } = fact.said;
    const good = allowed === null || found <= allowed;
    last.set(`${what} ${engine}`, { is: "suffered", seq, at, good, what, engine, found, allowed, unit });
  }
  return [...limits, ...last.values()];
}

function touchLines(events: readonly SessionEvent[]): DebriefLine[] {
  return POSTS.flatMap((post): DebriefLine[] => {
    const own = events.filter(
      ({ actor, fact }) => actor.kind === "person" && actor.post === post && fact.type !== "delivered",
    );
    const last = own.at(-1);
    const times = new Set(own.map(({ command }) => command)).size;
    return last ? [{ is: "touches", seq: last.seq, at: last.at, good: true, post, times }] : [];
  });
}
