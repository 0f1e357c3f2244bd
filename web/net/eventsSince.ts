import type { SessionEvent } from "../../shared/protocol/events.ts";
import { api } from "./app.ts";

/** Returns all recorded events of a session after sequence number `since`, fetched page by page. */
export async function eventsSince(id: string, since: number): Promise<SessionEvent[]> {
  const all: SessionEvent[] = [];
  for (;;) {
    const after = all.at(-1)?.seq ?? since;
    const page = await api.json<{ head: number; events: SessionEvent[] }>(
      "GET",
      `/api/sessions/${id}/events?since=${after}&limit=500`,
    );
    all.push(...page.events);
    if (page.events.length === 0 || (all.at(-1)?.seq ?? 0) >= page.head) return all;
  }
}
