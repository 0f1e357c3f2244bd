import { setImmediate } from "node:timers/promises";
import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionStarts } from "../../shared/history/house/figures.ts";
import { NO_STARTS, type StartHistory, startsAfter } from "../../shared/history/project.ts";
import type { StartRow } from "../../shared/history/row.ts";
import { isOver, purposeOf } from "../../shared/session/state.ts";
import { type EventStore, type SessionRow, StoreFailure } from "../store/events.ts";
import type { SearchIndex } from "../store/search-index.ts";
import { readKept, type SessionLeft } from "./kept.ts";

/** Newest sessions of one aircraft that are read: several years of daily starts. */
export const SESSIONS_READ = 400;

/** Sessions whose starts stay in memory, some 2 kB for each engine of each. */
const HELD = 4_000;
const PAGE = 100;

/** Newest sessions of a house that are read for its figures. */
export const HOUSE_SESSIONS = 1_000;

/** Kept sessions that are read at once, so that a history of years is no long piece of work. */
const KEPT_PAGE = 20;

interface Held extends SessionLeft {
  headSeq: number;
  headHash: string;
  /** The state from which reading goes on; null once the session is over. */
  going: StartHistory | null;
}

type Store = Pick<EventStore, "sessions" | "sessionsOf" | "read">;
type Log = { error(detail: object, message: string): void };
type Index = Pick<SearchIndex, "keepStarts" | "startsOf">;

/** The starts of some sessions, by time. */
export interface Starts {
  rows: StartRow[];
  /** True when older sessions were left out. */
  more: boolean;
}

/**
 * The starts of every aircraft, worked out from the sealed events. Those of a session that is over are kept in the
 * index under the hash of its last event, so that no server works them out again; they can be thrown away at any time.
 */
export class StartHistories {
  readonly #store: Store;
  readonly #index: Index;
  readonly #log: Log;
  /** The session used last is at the end. */
  readonly #held = new Map<string, Held>();
  readonly #reading = new Map<string, Promise<Held>>();

  constructor({ store, index, log }: { store: Store; index: Index; log: Log }) {
    this.#store = store;
    this.#index = index;
    this.#log = log;
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
    for (const held of await this.#ofAll(sessions)) rows.push(...held.rows);
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
    const read = all.slice(0, HOUSE_SESSIONS);
    const left = await this.#ofAll(read);
    const sessions = read.flatMap(({ createdAt }, i): SessionStarts[] => {
      const of = left[i];
      return of && !of.returns ? [{ at: createdAt, rows: of.rows, early: of.early }] : [];
    });
    return { sessions, more: all.length > HOUSE_SESSIONS };
  }

  /**
   * Works the starts of a session that is over out from its events, and keeps them in the index.
   * @throws StoreFailure
   */
  async keep(session: SessionRow): Promise<void> {
    await this.#keep(session.id, await this.#readOn(session, NO_STARTS));
  }

  async #ofAll(sessions: readonly SessionRow[]): Promise<Held[]> {
    const all: Held[] = [];
    for (let from = 0; from < sessions.length; from += KEPT_PAGE) {
      const page = sessions.slice(from, from + KEPT_PAGE);
      await this.#takeKept(page);
      for (const session of page) all.push(await this.#ofSession(session));
    }
    return all;
  }

  /** Reads from the index what is kept of those sessions that are not in memory. */
  async #takeKept(sessions: readonly SessionRow[]): Promise<void> {
    const over = sessions.filter((s) => s.closedAt !== null && this.#held.get(s.id)?.headHash !== s.headHash);
    if (over.length === 0) return;
    const heads = new Map(over.map((s) => [s.id, s]));
    const kept = await this.#index.startsOf([...heads.keys()]).catch((err) => {
      this.#log.error({ err }, "the kept starts could not be read: the events tell them");
      return [];
    });
    for (const { session, headHash, body } of kept) {
      const head = heads.get(session);
      const left = head?.headHash === headHash ? readKept(body) : null;
      if (head && left) this.#hold(session, { ...left, headSeq: head.headSeq, headHash, going: null });
    }
    // A history of years must not keep a signal waiting.
    await setImmediate();
  }

  async #ofSession(session: SessionRow): Promise<Held> {
    const known = this.#held.get(session.id);
    if (known?.headSeq === session.headSeq && known.headHash === session.headHash) {
      this.#hold(session.id, known);
      return known;
    }
    const key = `${session.id} ${session.headHash}`;
    const reading = this.#reading.get(key) ?? this.#readAnew(session, known?.going ?? NO_STARTS);
    this.#reading.set(key, reading);
    try {
      const held = await reading;
      this.#hold(session.id, held);
      return held;
    } finally {
      this.#reading.delete(key);
    }
  }

  async #readAnew(session: SessionRow, known: StartHistory): Promise<Held> {
    const held = await this.#readOn(session, known);
    if (held.going === null)
      await this.#keep(session.id, held).catch((err) => {
        // The events told it, so the answer is whole.
        this.#log.error({ err, session: session.id }, "the starts of a session could not be kept");
      });
    return held;
  }

  #keep(session: string, { headHash, rows, early, returns }: Held): Promise<void> {
    return this.#index.keepStarts({ session, headHash, body: JSON.stringify({ rows, early, returns }) });
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
