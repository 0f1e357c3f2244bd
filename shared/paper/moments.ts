import type { SessionEvent } from "../protocol/events.ts";
import { evolve } from "../session/evolve.ts";
import type { SessionState } from "../session/state.ts";

/** One event with the states before and after it, so that a reader of it need not guess what changed. */
export interface Moment {
  event: SessionEvent;
  /** Null before the plan. */
  before: SessionState | null;
  after: SessionState;
}

/**
 * Returns the record as moments, in order.
 * @throws Error when the events are not one whole session from its plan on
 */
export function momentsOf(events: readonly SessionEvent[]): Moment[] {
  const moments: Moment[] = [];
  let before: SessionState | null = null;
  for (const event of events) {
    const after: SessionState = evolve(before, event);
    moments.push({ event, before, after });
    before = after;
  }
  return moments;
}
