import type { SessionEvent } from "../protocol/events.ts";
import { evolve } from "../session/evolve.ts";
import type { SessionState } from "../session/state.ts";

/** One event with the states on both sides of it: what it changed can be read off, not guessed. */
export interface Moment {
  event: SessionEvent;
  /** Null before the plan. */
  before: SessionState | null;
  after: SessionState;
}

/**
 * The record as moments, in order.
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
