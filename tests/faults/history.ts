import { canonical } from "../../shared/evidence/canonical.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";

/** One command as its sender knows it. Moments are numbers of one counter that all senders share. */
export interface Sent {
  id: string;
  session: string;
  /** The moment of its first sending. */
  sentAt: number;
  /** The last event that its sender had seen by then. */
  saw: number;
  /** Each answer: its moment and the event number it named. */
  answers: { at: number; seq: number }[];
}

/** Everything that one client sent and saw. */
export interface History {
  client: string;
  sent: readonly Sent[];
  /** Events shown to it, in the order of their arrival. */
  seen: readonly SessionEvent[];
}

/**
 * Compares the record with everything its clients saw. Returns the faults in words; empty when one server that does
 * one thing at a time could have made this record (linearizable: Herlihy and Wing, 1990).
 */
export function historyFaults(log: readonly SessionEvent[], histories: readonly History[]): string[] {
  const faults: string[] = [];
  const at = new Map<string, SessionEvent>();
  const placesOf = new Map<string, number[]>();
  for (const event of log) {
    at.set(`${event.session} ${event.seq}`, event);
    if (event.command && event.fact.type === "sent")
      placesOf.set(event.command, [...(placesOf.get(event.command) ?? []), event.seq]);
  }
  const sent = histories.flatMap((h) => h.sent);
  const known = new Set(sent.map((s) => s.id));
  for (const [id, places] of placesOf) {
    if (places.length > 1) faults.push(`command ${id} is in the record ${places.length} times`);
    if (!known.has(id)) faults.push(`command ${id} was sent by nobody`);
  }
  for (const { id, session, saw, answers } of sent) {
    const place = placesOf.get(id)?.[0];
    for (const { seq } of answers) {
      const event = at.get(`${session} ${seq}`);
      if (event?.command !== id)
        faults.push(`command ${id} was answered with ${seq}, which is not in the record`);
    }
    if (place !== undefined && place <= saw)
      faults.push(`command ${id} is at ${place}, before event ${saw}, which its sender had seen`);
  }
  faults.push(...orderFaults(sent));
  for (const { client, seen } of histories) {
    const last = new Map<string, number>();
    for (const event of seen) {
      const before = last.get(event.session) ?? 0;
      if (event.seq <= before) faults.push(`${client} saw event ${event.seq} after ${before}`);
      last.set(event.session, event.seq);
      const kept = at.get(`${event.session} ${event.seq}`);
      if (!kept || canonical(kept) !== canonical(event))
        faults.push(`${client} saw another event ${event.seq} than was recorded`);
    }
  }
  return faults;
}

/** A command answered before another was sent comes before it in the record, whoever sent them. */
function orderFaults(sent: readonly Sent[]): string[] {
  const faults: string[] = [];
  const highest = new Map<string, { seq: number; id: string }>();
  const moments = sent.flatMap((s) => {
    const first = s.answers[0];
    return first
      ? [
          { at: s.sentAt, is: "sent" as const, s, first },
          { at: first.at, is: "answered" as const, s, first },
        ]
      : [];
  });
  for (const { is, s, first } of moments.sort((a, b) => a.at - b.at)) {
    const before = highest.get(s.session);
    if (is === "sent" && before && first.seq < before.seq)
      faults.push(`${s.id} at ${first.seq} was sent after ${before.id} at ${before.seq} was answered`);
    if (is === "answered" && first.seq > (before?.seq ?? 0))
      highest.set(s.session, { seq: first.seq, id: s.id });
  }
  return faults;
}
