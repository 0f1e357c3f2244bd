import type { SessionEvent } from "../protocol/events.ts";
import type { SignalKind } from "../protocol/signals.ts";

/** Signals at which an instructor goes back: what begins and ends an attempt, and every stop. */
const SIGNALS: readonly SignalKind[] = [
  ...(["readyToStart", "clearToStart", "cranking", "caught", "started", "startAbandoned"] as const),
  ...(["hold", "cut", "cutAll", "fire", "shutDown"] as const),
];

/** Returns the events of a rehearsal to which an instructor may want to go back, the newest first. */
export function momentsIn(events: readonly SessionEvent[], most: number): SessionEvent[] {
  return events
    .filter(({ fact }) => {
      if (fact.type === "rehearsed") return fact.said.is === "fault" || fact.said.is === "mark";
      if (fact.type === "sent") return SIGNALS.includes(fact.kind);
      return fact.type === "stageReached" || fact.type === "drillStarted";
    })
    .reverse()
    .slice(0, most);
}
