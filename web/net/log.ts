import type { SessionEvent } from "../../shared/protocol/events.ts";

/** Returns two parts of one session's record as one list, in order, each event once. */
export function merged(a: readonly SessionEvent[], b: readonly SessionEvent[]): SessionEvent[] {
  // New events follow the last one; a sort of the whole record for each of them would take longer and longer.
  if ((a.at(-1)?.seq ?? 0) < (b[0]?.seq ?? 0)) return [...a, ...b];
  const all = new Map<number, SessionEvent>();
  for (const event of a) all.set(event.seq, event);
  for (const event of b) all.set(event.seq, event);
  return [...all.values()].sort((x, y) => x.seq - y.seq);
}

/** Returns the last number before the first gap; 0 when the beginning is missing. */
export function wholeUpTo(events: readonly SessionEvent[]): number {
  let last = 0;
  for (const event of events) {
    if (event.seq !== last + 1) return last;
    last = event.seq;
  }
  return last;
}
