import { setImmediate } from "node:timers/promises";
import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { type Rebuilt, rebuilding } from "../../shared/rehearsal/replay.ts";
import type { Names } from "../evidence/names.ts";
import type { EventStore } from "../store/events.ts";

const PAGE = 200;

export interface RecordDeps {
  store: EventStore;
  names: Pick<Names, "loadFor" | "reveal">;
}

/** Returns every event of a rehearsal that was stored so far, with the names in them. */
export async function eventsOf({ store, names }: RecordDeps, id: string): Promise<SessionEvent[]> {
  const events: SessionEvent[] = [];
  for (;;) {
    const page = await store.read(id, events.length, PAGE);
    await names.loadFor(page.map(({ body }) => body));
    events.push(...page.map(({ body }) => readSealed(names.reveal(body)).event));
    if (page.length < PAGE) return events;
  }
}

/** Rebuilds a rehearsal from its record, a little at a time: a real start beside it must not wait. */
export async function rebuilt(events: readonly SessionEvent[]): Promise<Rebuilt> {
  const work = rebuilding(events);
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    await setImmediate();
  }
}
