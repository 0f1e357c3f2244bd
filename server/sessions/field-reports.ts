import { fieldFor } from "../../shared/field/fieldFor.ts";
import { isFieldNews } from "../../shared/field/know.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Field } from "../../shared/protocol/field.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import type { EventStore, SessionRow } from "../store/events.ts";

/** Sessions looked through for what they reported of a field. */
const LOOKED_THROUGH = 100;
/** Reports of a field older than this matter to no plan. Milliseconds. */
const KEPT_MS = 2 * 3_600_000;

/** Returns the sessions on a field that may have reported its weather or lightning lately. */
export async function reportingAt(store: EventStore, place: string, now: number): Promise<SessionRow[]> {
  const rows = await store.sessions(LOOKED_THROUGH);
  return rows.filter((row) => row.place === place && row.headAt >= now - KEPT_MS);
}

/**
 * Weather and lightning that the sessions of this server report, each for every other one on the same field. Rehearsals
 * neither report nor are told.
 */
export class FieldReports {
  readonly #states = new Map<string, SessionState>();
  /** Reports from each field since this server started, and how many of them each session knows. */
  readonly #reports = new Map<string, number>();
  readonly #known = new Map<string, number>();

  /** Takes over a session's newest state. Returns true when it reported something of its field. */
  published(state: SessionState, events: readonly SessionEvent[]): boolean {
    if (state.rehearsal) return false;
    this.#states.set(state.id, state);
    if (!events.some(({ fact }) => fact.type === "flashSeen" || fact.type === "weatherRead")) return false;
    this.#reports.set(state.place, (this.#reports.get(state.place) ?? 0) + 1);
    return true;
  }

  forget(session: string): void {
    this.#states.delete(session);
    this.#known.delete(session);
  }

  openAt(place: string): SessionState[] {
    return [...this.#states.values()].filter((s) => s.place === place && !isOver(s));
  }

  /** Returns what other sessions reported of the field and this one does not know; undefined when it knows all. */
  news(state: SessionState): Field | undefined {
    if (state.rehearsal) return undefined;
    const reports = this.#reports.get(state.place) ?? 0;
    if (reports === 0 || this.#known.get(state.id) === reports) return undefined;
    const field = fieldFor([...this.#states.values()], state.place, state.id);
    if (isFieldNews(state, field)) return field;
    this.#known.set(state.id, reports);
    return undefined;
  }
}
