import type { SessionEvent } from "../protocol/events.ts";
import type { Sync } from "../protocol/wire.ts";
import { evolve } from "../session/evolve.ts";
import type { SessionState } from "../session/state.ts";

/**
 * A gap: the panel lacks events and must watch again with `since`. 0 asks for the whole state, because the panel's own
 * is unusable.
 */
export interface Gap {
  since: number;
}

/** A panel's copy after something arrived. */
export interface Applied {
  state: SessionState | null;
  /** The new events, in order. The panel announces them, and the outbox settles its entries from them. */
  fresh: SessionEvent[];
  gap: Gap | null;
}

/**
 * Returns a panel's copy after a batch of one session's events. It skips events that the copy already has, applies the
 * next ones with the same code as the server, and stops at the first missing number: the panel must then ask for the
 * rest.
 * @param state null while the panel holds nothing of the session
 */
export function applyBatch(state: SessionState | null, events: readonly SessionEvent[]): Applied {
  let next = state;
  const fresh: SessionEvent[] = [];
  for (const event of [...events].sort((a, b) => a.seq - b.seq)) {
    const held = next?.seq ?? 0;
    if (next !== null && event.session !== next.id) continue;
    if (event.seq <= held) continue;
    if (event.seq !== held + 1) return { state: next, fresh, gap: { since: held } };
    try {
      next = evolve(next, event);
    } catch {
      // This copy cannot apply the event: it needs the whole state from the server.
      return { state: next, fresh, gap: { since: 0 } };
    }
    fresh.push(event);
  }
  return { state: next, fresh, gap: null };
}

/**
 * Returns a panel's copy after the server's answer to `watch`.
 * @param asked the `since` of the request: a server that holds fewer events has another record, whose state replaces
 * the copy; an answer that only arrived late is ignored
 */
export function applySync(state: SessionState | null, sync: Sync, asked: number): Applied {
  if (sync.head < asked) {
    if ("state" in sync) return { state: sync.state, fresh: [], gap: null };
    return { state, fresh: [], gap: { since: 0 } };
  }
  if ("state" in sync) {
    const taken = state === null || asked === 0 || sync.state.seq > state.seq;
    const next = taken ? sync.state : state;
    return { state: next, fresh: [], gap: behind(next, sync.head) };
  }
  const applied = applyBatch(state, sync.events);
  return applied.gap ? applied : { ...applied, gap: behind(applied.state, sync.head) };
}

/** Returns the gap up to the head that the server named in a beat or an answer; null when nothing is missing. */
export function behind(state: SessionState | null, head: number): Gap | null {
  const held = state?.seq ?? 0;
  return head > held ? { since: held } : null;
}
