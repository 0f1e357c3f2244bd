import type { Fact, SessionEvent } from "../protocol/events.ts";
import { rehearsedAircraft, type TakenBack } from "../protocol/rehearsal.ts";

/** The rehearsal that begins with what is retold. */
export interface Retelling {
  session: string;
  code: string;
  /** Server time at which it begins. */
  now: number;
}

/**
 * Returns the number of the last event to retell for a moment: with a command's event go those that followed from it.
 * @param seq an event of the record
 */
export function momentEnd(events: readonly SessionEvent[], seq: number): number {
  const moment = events[seq - 1];
  let last = seq;
  for (const { cause, at, command } of events.slice(seq)) {
    if (at !== moment?.at || (cause === null && (command === null || command !== moment.command))) break;
    last += 1;
  }
  return last;
}

/**
 * Returns the events of a rehearsal up to `seq` as another one begins with them: the same facts by the same people
 * under the same numbers, dated later so that the last one is now. The first says of which rehearsal they are.
 */
export function retell(
  events: readonly SessionEvent[],
  seq: number,
  { session, code, now }: Retelling,
): SessionEvent[] {
  const told = events.slice(0, seq);
  const later = now - (told.at(-1)?.at ?? now);
  return told.map((event): SessionEvent => {
    const moved = { ...event, session, at: event.at + later, fact: dated(event.fact, later) };
    const { fact } = moved;
    if (fact.type !== "planned" || !fact.rehearsal) return moved;
    const back: TakenBack = { session: event.session, seq, later };
    const { of } = fact.rehearsal;
    return {
      ...moved,
      fact: { ...fact, aircraft: rehearsedAircraft(of, code), rehearsal: { ...fact.rehearsal, back } },
    };
  });
}

/** Returns a fact with the times in it moved. A rehearsal is told nothing of aircraft, fields and instruments. */
function dated(fact: Fact, later: number): Fact {
  if (fact.type === "sent" && fact.expiresAt !== undefined)
    return { ...fact, expiresAt: fact.expiresAt + later };
  if (fact.type === "weatherRead" && fact.observedAt !== undefined)
    return { ...fact, observedAt: fact.observedAt + later };
  return fact.type === "voltTraceGiven" ? { ...fact, endedAt: fact.endedAt + later } : fact;
}
