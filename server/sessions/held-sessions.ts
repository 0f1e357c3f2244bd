import { isOver, type SessionState } from "../../shared/session/state.ts";
import type { SessionRow } from "../store/events.ts";
import type { SessionsDeps } from "./deps.ts";
import { NoSuchSession } from "./errors.ts";
import type { FieldReports } from "./field-reports.ts";
import { LiveSession, type Published } from "./live-session.ts";
import { type Replayed, replay } from "./replay.ts";
import type { Supervised } from "./supervised.ts";

/** Sessions that are over stay in memory up to this number after somebody read them. */
const OVER_KEPT = 40;

/** The sessions in this server's memory. */
export class HeldSessions {
  readonly #deps: SessionsDeps;
  readonly #field: FieldReports;
  readonly #supervised: Supervised;
  readonly #restarted: (live: LiveSession) => Promise<void>;
  readonly #opened: (state: SessionState) => void;
  readonly #published: Published;
  readonly #held = new Map<string, Promise<LiveSession>>();
  /** The open sessions that can be used now. */
  readonly #open = new Map<string, LiveSession>();
  /** Ids of the open sessions in memory, by aircraft. */
  readonly #openAt = new Map<string, Set<string>>();
  /** Ids of sessions in memory that are over, least recently used first. */
  readonly #over = new Set<string>();

  /**
   * @param restarted awaited with each open session that was loaded, before anything else is done with it
   * @param opened called with it afterwards
   */
  constructor(
    deps: SessionsDeps,
    field: FieldReports,
    supervised: Supervised,
    restarted: (live: LiveSession) => Promise<void>,
    opened: (state: SessionState) => void,
    published: Published,
  ) {
    this.#deps = deps;
    this.#field = field;
    this.#supervised = supervised;
    this.#restarted = restarted;
    this.#opened = opened;
    this.#published = published;
  }

  /**
   * Returns the session, loaded from the store if need be.
   * @throws NoSuchSession
   * @throws StoreFailure when its events cannot be read, or are not what was recorded
   */
  async get(id: string): Promise<LiveSession> {
    let held = this.#held.get(id);
    if (!held) {
      held = this.#load(id);
      this.#held.set(id, held);
      held.catch(() => this.#held.delete(id));
    }
    return held;
  }

  /** Returns the session if it is in memory, or is being loaded. */
  inMemory(id: string): Promise<LiveSession> | undefined {
    return this.#held.get(id);
  }

  /** Returns the ids of the open sessions in memory of an aircraft. */
  openAt(aircraft: string): string[] {
    return [...(this.#openAt.get(aircraft) ?? [])];
  }

  /** Returns the ids of the sessions in memory that are not known to be over. */
  openIds(): string[] {
    return [...this.#held.keys()].filter((id) => !this.#over.has(id));
  }

  /** Returns the open sessions in memory, without those that are still being read. */
  allOpen(): LiveSession[] {
    return [...this.#open.values()];
  }

  /** Takes a new session into memory, unless it was loaded meanwhile. */
  add(row: SessionRow, held: Replayed): void {
    if (this.#held.has(row.id)) return;
    const live = this.#wake(row, held);
    this.#held.set(row.id, Promise.resolve(live));
    this.#open.set(row.id, live);
  }

  /** Marks a session as over and just used. Forgets the one that was used longest ago if there are too many. */
  ended({ id, aircraft }: SessionState): void {
    this.#open.delete(id);
    const open = this.#openAt.get(aircraft);
    open?.delete(id);
    if (open?.size === 0) this.#openAt.delete(aircraft);
    this.#over.delete(id);
    this.#over.add(id);
    const [oldest] = this.#over;
    if (this.#over.size <= OVER_KEPT || oldest === undefined) return;
    this.#over.delete(oldest);
    this.#held.delete(oldest);
    this.#field.forget(oldest);
  }

  async #load(id: string): Promise<LiveSession> {
    const row = await this.#deps.store.session(id);
    if (!row) throw new NoSuchSession(`there is no session ${id}`);
    const live = this.#wake(row, await replay(this.#deps.store, row, this.#deps.names));
    if (isOver(live.state)) {
      this.ended(live.state);
      return live;
    }
    await this.#restarted(live);
    this.#open.set(id, live);
    this.#opened(live.state);
    return live;
  }

  #wake(row: SessionRow, held: Replayed): LiveSession {
    const { state } = held;
    this.#field.published(state, []);
    this.#supervised.published(state);
    if (!isOver(state))
      this.#openAt.set(state.aircraft, (this.#openAt.get(state.aircraft) ?? new Set()).add(state.id));
    return new LiveSession(this.#deps.store, row, held, this.#deps.names, this.#published);
  }
}
