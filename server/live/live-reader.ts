import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { isOver } from "../../shared/session/state.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { type Position, positionText } from "./stream-position.ts";

/** Version of the form of the messages. */
export const LIVE_FORM = 1;

/** Events per read of the store. */
const PAGE = 500;
/** Sessions looked through for those that were planned while the reader was away. */
const LISTED = 200;
/** Servers on one database may differ by this much in the time of a plan. Milliseconds. */
const SLACK_MS = 60_000;
/** Sessions that are over and still named in the position. */
const OVER_NAMED = 20;

/** The sessions that are read: one, those of one aircraft, or all. */
export type Reach = { is: "session" | "aircraft"; id: string } | { is: "ramp" };

/** One message, and the position after it. */
export interface LiveEntry {
  position: string;
  name: "hello" | "state" | "event" | "beat";
  data: object;
  event?: SessionEvent;
}

export interface LiveReaderDeps {
  store: EventStore;
  sessions: Sessions;
  names: Pseudonyms;
  clock: Clock;
}

/**
 * Reads what sessions record, from a position on. It takes from the record as fast as the other end reads, so that no
 * number of slow readers fills memory, and a message is never lost or repeated: each one carries the position after it.
 */
export class LiveReader {
  readonly #deps: LiveReaderDeps;
  readonly #reach: Reach;
  readonly #at: Position;
  /** Sessions of the position whose state is sent before their events. */
  readonly #bare = new Set<string>();
  /** Sessions that may have more. */
  readonly #moved = new Set<string>();
  readonly #over: string[] = [];
  #wake: () => void = () => {};
  #beat = false;
  #closed = false;

  private constructor(deps: LiveReaderDeps, reach: Reach, at: Position) {
    this.#deps = deps;
    this.#reach = reach;
    this.#at = at;
  }

  /** Returns a reader that begins after `from`, or without it with the state of what is open now. */
  static async open(deps: LiveReaderDeps, reach: Reach, from: Position | null): Promise<LiveReader> {
    const since = from?.since ?? deps.clock.now();
    const reader = new LiveReader(deps, reach, { since, sessions: new Map() });
    for (const { id, headSeq, createdAt, closedAt } of await reader.#rows(from)) {
      const known = from?.sessions.get(id);
      const fresh = from === null ? closedAt === null : closedAt === null || createdAt > since - SLACK_MS;
      if (known === undefined && !fresh && reach.is !== "session") continue;
      // A number that the record does not have: the database was put back to an earlier state.
      const bare = from === null || (known !== undefined && known > headSeq);
      reader.#add(id, bare ? 0 : (known ?? 0), createdAt);
      if (bare) reader.#bare.add(id);
    }
    return reader;
  }

  async #rows(from: Position | null): Promise<SessionRow[]> {
    const { store } = this.#deps;
    const reach = this.#reach;
    const named = reach.is === "session" ? [reach.id] : [...(from?.sessions.keys() ?? [])];
    const rows = await Promise.all(named.map((id) => store.session(id)));
    const others =
      reach.is === "session" ? [] : [...(await store.openSessions()), ...(await store.sessions(LISTED))];
    const all = [...rows.flatMap((row) => row ?? []), ...others];
    return [...new Map(all.map((row) => [row.id, row])).values()].filter((row) => this.#reaches(row));
  }

  #reaches({ id, aircraft }: Pick<SessionRow, "id" | "aircraft">): boolean {
    const reach = this.#reach;
    switch (reach.is) {
      case "session":
        return id === reach.id;
      case "aircraft":
        return aircraft === reach.id;
      case "ramp":
        // A reader of the ramp would take a rehearsal for a start.
        return !isRehearsalId(id);
    }
  }

  #add(id: string, seq: number, createdAt: number): void {
    this.#at.sessions.set(id, seq);
    this.#at.since = Math.max(this.#at.since, createdAt);
    this.#moved.add(id);
  }

  /** The session may have more events. */
  moved(id: string): void {
    if (this.#reach.is === "session" && this.#reach.id !== id) return;
    this.#moved.add(id);
    this.#wake();
  }

  /** Sends a sign of life. */
  beat(): void {
    this.#beat = true;
    this.#wake();
  }

  /** Ends the stream after what is being sent. */
  close(): void {
    this.#closed = true;
    this.#wake();
  }

  /** Yields the text of each message (HTML standard, server-sent events). */
  async *read(): AsyncGenerator<string> {
    for await (const { position, name, data } of this.entries())
      yield name === "beat"
        ? ": beat\n\n"
        : `id: ${position}\nevent: ${name}\ndata: ${JSON.stringify({ v: LIVE_FORM, ...data })}\n\n`;
  }

  /** Yields each message. */
  async *entries(): AsyncGenerator<LiveEntry> {
    yield this.#entry("hello", { serverNow: this.#deps.clock.now() });
    while (!this.#closed) {
      const [id] = this.#moved;
      if (id !== undefined) {
        this.#moved.delete(id);
        yield* this.#more(id);
      } else if (this.#beat) {
        this.#beat = false;
        yield this.#entry("beat", {});
      } else {
        const woken = new Promise<void>((resolve) => {
          this.#wake = resolve;
        });
        // Something may have come before there was anything to wake.
        if (this.#moved.size === 0 && !this.#beat && !this.#closed) await woken;
      }
    }
  }

  async *#more(id: string): AsyncGenerator<LiveEntry> {
    if (!this.#at.sessions.has(id) && !(await this.#learn(id))) return;
    if (this.#bare.delete(id)) yield await this.#state(id);
    while (!this.#closed) {
      const events = await this.#after(id, this.#at.sessions.get(id) ?? 0);
      for (const event of events) {
        if (this.#closed) return;
        this.#at.sessions.set(id, event.seq);
        yield { ...this.#entry("event", { event }), event };
        if (isEnd(event)) return this.#ended(id);
      }
      if (events.length === 0) return;
    }
  }

  /** Takes up a session that began while this reader reads. Returns false when it is not wanted. */
  async #learn(id: string): Promise<boolean> {
    const row = await this.#deps.store.session(id);
    if (!row || !this.#reaches(row) || this.#over.includes(id)) return false;
    this.#add(id, 0, row.createdAt);
    this.#moved.delete(id);
    return true;
  }

  async #state(id: string): Promise<LiveEntry> {
    const { state } = await this.#deps.sessions.get(id);
    this.#at.sessions.set(id, state.seq);
    if (isOver(state)) this.#ended(id);
    return this.#entry("state", { session: id, serverNow: this.#deps.clock.now(), state });
  }

  async #after(id: string, seq: number): Promise<SessionEvent[]> {
    const { store, sessions, names } = this.#deps;
    const held = (await sessions.isPutAway(id)) ? null : (await sessions.get(id)).after(seq);
    if (held) return held;
    const stored = await store.read(id, seq, PAGE);
    await names.loadFor(stored.map((e) => e.body));
    return stored.map((e) => readSealed(names.reveal(e.body)).event);
  }

  /** Forgets the session that was over first, when the position would grow without end. */
  #ended(id: string): void {
    this.#over.push(id);
    const oldest = this.#over.length > OVER_NAMED ? this.#over.shift() : undefined;
    if (oldest !== undefined && this.#reach.is !== "session") this.#at.sessions.delete(oldest);
  }

  #entry(name: LiveEntry["name"], data: object): LiveEntry {
    return { position: positionText(this.#at, this.#reach.is !== "session"), name, data };
  }
}

/** Returns true for the last event of a session. */
function isEnd({ fact }: SessionEvent): boolean {
  return fact.type === "stageReached" && (fact.stage === "closed" || fact.stage === "abandoned");
}
