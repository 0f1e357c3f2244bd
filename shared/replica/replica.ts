import type { SessionEvent } from "../protocol/events.ts";
import type { Sync } from "../protocol/wire.ts";
import { evolve } from "../session/evolve.ts";
import type { SessionState } from "../session/state.ts";

/** Events that a panel lacks: it must watch again with `since`. 0 asks for the whole state, as its own is unusable. */
export interface Gap {
  since: number;
}

/** A panel's copy after something arrived. */
export interface Applied {
  state: SessionState | null;
  /** The events that were new, in order: what a panel announces and an outbox learns its answers from. */
  fresh: SessionEvent[];
  gap: Gap | null;
}

/**
 * A batch of one session's events onto a panel's copy. Events it already has are passed over, the next in number are
 * applied by the same code as the server's, and at the first missing number it stops: what follows is asked for anew.
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
      // An event this copy cannot take: only the server's own state helps now.
      return { state: next, fresh, gap: { since: 0 } };
    }
    fresh.push(event);
  }
  return { state: next, fresh, gap: null };
}

/**
 * The server's answer to `watch`.
 * @param asked the `since` it was asked with: a server that holds less than that has another record, whose state is
 *   taken whole; an answer that merely arrived late is passed over
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

/** Returns the events missing up to the head that the server named in a beat or an answer; null for none. */
export function behind(state: SessionState | null, head: number): Gap | null {
  const held = state?.seq ?? 0;
  return head > held ? { since: held } : null;
}
