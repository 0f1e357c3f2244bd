import { setImmediate } from "node:timers/promises";
import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionStarts } from "../../shared/history/house/figures.ts";
import { NO_STARTS, type StartHistory, startsAfter } from "../../shared/history/project.ts";
import type { Raised, StartRow } from "../../shared/history/row.ts";
import { isOver, purposeOf } from "../../shared/session/state.ts";
import { type EventStore, type SessionRow, StoreFailure } from "../store/events.ts";

/** Newest sessions of one aircraft that are read: several years of daily starts. */
export const SESSIONS_READ = 400;

/** Sessions whose starts stay in memory, some 2 kB for each engine of each. */
const HELD = 4_000;
const PAGE = 100;

/** Newest sessions of a house that are read for its figures. */
export const HOUSE_SESSIONS = 1_000;

interface Held {
  headSeq: number;
  headHash: string;
  rows: StartRow[];
  early: Raised;
  returns: boolean;
  /** The state from which reading goes on; null once the session is over. */
  going: StartHistory | null;
}

/** The starts of some sessions, by time. */
export interface Starts {
  rows: StartRow[];
  /** True when older sessions were left out. */
  more: boolean;
}

/**
 * The starts of every aircraft, worked out from the sealed events when they are asked for. What a session's head was
 * worked out from is kept in memory, so that nothing is stored that could differ from the evidence.
 */
export class StartHistories {
  readonly #store: Pick<EventStore, "sessions" | "sessionsOf" | "read">;
  /** The session used last is at the end. */
  readonly #held = new Map<string, Held>();
  readonly #reading = new Map<string, Promise<Held>>();

  constructor(store: Pick<EventStore, "sessions" | "sessionsOf" | "read">) {
    this.#store = store;
  }

  /**
   * Returns the starts of these aircraft, oldest first, with people under the names of the sealed record.
   * @throws StoreFailure
   */
  async of(aircraft: ReadonlySet<string>): Promise<Starts> {
    const most = SESSIONS_READ * aircraft.size;
    const all: SessionRow[] = [];
    for (const id of aircraft) all.push(...(await this.#store.sessionsOf(id, most + 1)));
    all.sort((a, b) => b.createdAt - a.createdAt || (a.id < b.id ? 1 : -1));
    const sessions = all.slice(0, most);
    const rows: StartRow[] = [];
    for (const session of sessions) rows.push(...(await this.#ofSession(session)).rows);
    return { rows: rows.sort((a, b) => a.at - b.at || a.seq - b.seq), more: all.length > sessions.length };
  }

  /**
   * Returns what the sessions that were planned from a moment on left, of every aircraft, the newest first, without
   * returns. `more`: true when older ones of these were left out.
   * @throws StoreFailure
   */
  async since(from: number): Promise<{ sessions: SessionStarts[]; more: boolean }> {
    const newest = await this.#store.sessions(HOUSE_SESSIONS + 1);
    const all = newest.filter((s) => s.createdAt >= from);
    const sessions: SessionStarts[] = [];
    for (const session of all.slice(0, HOUSE_SESSIONS)) {
      const { rows, early, returns } = await this.#ofSession(session);
      if (!returns) sessions.push({ at: session.createdAt, rows, early });
    }
    return { sessions, more: all.length > HOUSE_SESSIONS };
  }

  async #ofSession(session: SessionRow): Promise<Held> {
    const known = this.#held.get(session.id);
    if (known?.headSeq === session.headSeq && known.headHash === session.headHash) {
      this.#hold(session.id, known);
      return known;
    }
    const key = `${session.id} ${session.headHash}`;
    const reading = this.#reading.get(key) ?? this.#readOn(session, known?.going ?? NO_STARTS);
    this.#reading.set(key, reading);
    try {
      const held = await reading;
      this.#hold(session.id, held);
      return held;
    } finally {
      this.#reading.delete(key);
    }
  }

  async #readOn({ id, headSeq, headHash }: SessionRow, known: StartHistory): Promise<Held> {
    let history = known;
    for (let seq = history.state?.seq ?? 0; seq < headSeq; seq = history.state?.seq ?? headSeq) {
      const page = await this.#store.read(id, seq, Math.min(PAGE, headSeq - seq));
      if (page.length === 0) throw new StoreFailure(`session ${id} has no event ${seq + 1}`);
      history = startsAfter(
        history,
        page.map(({ body }) => readSealed(body).event),
      );
      // A history of years must not keep a signal waiting.
      await setImmediate();
    }
    const { state, rows, early } = history;
    const over = state !== null && isOver(state);
    const returns = state !== null && purposeOf(state) === "return";
    return { headSeq, headHash, rows, early, returns, going: over ? null : history };
  }

  #hold(id: string, held: Held): void {
    this.#held.delete(id);
    this.#held.set(id, held);
    for (const oldest of this.#held.keys()) {
      if (this.#held.size <= HELD) return;
      this.#held.delete(oldest);
    }
  }
}
