import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { AircraftRecords } from "../../server/aircraft/records.ts";
import type { Timers } from "../../server/clock.ts";
import { noPseudonyms } from "../../server/evidence/names.ts";
import { NO_BUS } from "../../server/many/bus.ts";
import { rowOf } from "../../server/sessions/row.ts";
import { Sessions } from "../../server/sessions/sessions.ts";
import { sha256 } from "../../server/sha256.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { type Command, commandSchema } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Sync } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Person } from "../../shared/session/step.ts";
import type { Server } from "./server.ts";

interface Timer {
  at: number;
  run: () => void;
}

let made: Buffer | null = null;

/** Returns the bytes of a new database. It is made once: its migrations would take most of a run. */
function emptyDatabase(now: number): Buffer {
  if (made) return made;
  const folder = mkdtempSync(join(tmpdir(), "chockside-sim-"));
  const file = join(folder, "sim.db");
  openDatabase(file, now).close();
  made = readFileSync(file);
  rmSync(folder, { recursive: true, force: true });
  return made;
}

/**
 * The server's own sessions over its own SQLite store on a file. Only the clock, the timers and the wire are simulated.
 */
export class StoredServer implements Server {
  state: SessionState;
  readonly #folder: string;
  readonly #publish: (events: SessionEvent[]) => void;
  #store: SqliteEventStore;
  #sessions: Sessions;
  #timers = new Set<Timer>();
  #now: number;
  #offset = 0;
  #newest = 0;
  /** Number of answers still due, and the life of the server they belong to. */
  #open = 0;
  #life = 0;

  private constructor(state: SessionState, publish: (events: SessionEvent[]) => void, now: number) {
    this.state = state;
    this.#publish = publish;
    this.#now = now;
    this.#folder = mkdtempSync(join(tmpdir(), "chockside-sim-"));
    this.#store = this.#opened();
    this.#sessions = this.#started();
  }

  /** Returns a server that has recorded `log`. */
  static async of(
    log: readonly SessionEvent[],
    state: SessionState,
    publish: (events: SessionEvent[]) => void,
    now: number,
  ): Promise<StoredServer> {
    const server = new StoredServer(state, publish, now);
    let hash = genesis(state.id, sha256);
    const events = log.map((event) => {
      const sealed = seal(event, hash, sha256);
      hash = sealed.hash;
      return { ...sealed, at: event.at, type: event.fact.type, command: event.command };
    });
    const base = { code: "SIMSIM", planCommand: "plan", createdAt: log[0]?.at ?? now };
    await server.#store.append({ expected: 0, events, row: rowOf(base, state, hash) });
    await server.#sessions.get(state.id);
    return server;
  }

  #opened(): SqliteEventStore {
    const file = join(this.#folder, "sim.db");
    if (!existsSync(file)) writeFileSync(file, emptyDatabase(this.#now), { mode: 0o600 });
    const db = openDatabase(file, this.#now);
    // This machine does not lose power in the test, so flushing is off to run many seeds.
    db.pragma("synchronous = OFF");
    return new SqliteEventStore(db);
  }

  #started(): Sessions {
    this.#life += 1;
    const life = this.#life;
    const timers: Timers = {
      after: (ms, run) => {
        const timer = { at: this.#clock() + ms, run };
        this.#timers.add(timer);
        return () => this.#timers.delete(timer);
      },
    };
    const clock = {
      now: () => this.#clock(),
      recorded: (at: number) => {
        this.#newest = Math.max(this.#newest, at);
      },
    };
    const log = { error() {}, info() {} };
    const sessions = new Sessions({
      store: this.#store,
      clock,
      timers,
      log,
      notary: { due() {} },
      names: noPseudonyms,
      bus: NO_BUS,
      currencies: { standing: async () => ({ lapsed: null, until: null }), closed: async () => {} },
      equipment: { shown: async () => null },
      records: new AircraftRecords({
        ...{ store: this.#store, clock, names: noPseudonyms, log },
        inspectsDefects: async () => false,
      }),
      inTurn: (_keys, work) => work(),
    });
    sessions.tell({
      recorded: (_session, events) => {
        if (life === this.#life) this.#heard(events);
      },
      unrecorded() {},
      ramp() {},
    });
    return sessions;
  }

  #clock(): number {
    return this.#now + this.#offset;
  }

  #heard(events: SessionEvent[]): void {
    this.#publish(events.map((e) => JSON.parse(JSON.stringify(e)) as SessionEvent));
  }

  /** Tracks asynchronous work of this life of the server. The results of a killed server reach nobody. */
  #working<T>(work: Promise<T>, done: (value: T) => void = () => {}): void {
    const life = this.#life;
    this.#open += 1;
    const over = () => {
      if (life === this.#life) this.#open -= 1;
    };
    work.then(
      (value) => {
        if (life === this.#life) done(value);
        over();
      },
      (error) => {
        over();
        if (life === this.#life) throw error;
      },
    );
  }

  command(raw: unknown, who: Person, now: number, answer: (result: CommandResult) => void): void {
    this.#now = now;
    const command: Command = commandSchema.parse(raw);
    this.#working(this.#sessions.command(who, command, { confirmed: true }), answer);
  }

  watch(since: number, now: number, answer: (sync: Sync) => void): void {
    this.#now = now;
    this.#working(this.#sessions.get(this.state.id), (live) => {
      const { id: session, seq: head } = live.state;
      const events = since === 0 ? null : live.after(since);
      const more = events ? { events } : { state: live.state };
      answer({
        session,
        head,
        serverNow: this.#clock(),
        ...(JSON.parse(JSON.stringify(more)) as typeof more),
      });
    });
  }

  wake(now: number): void {
    this.#now = now;
    for (const timer of [...this.#timers].sort((a, b) => a.at - b.at)) {
      if (timer.at > this.#clock() || !this.#timers.delete(timer)) continue;
      timer.run();
    }
  }

  async restart(now: number): Promise<void> {
    this.#now = now;
    this.#sessions.close();
    this.#timers.clear();
    this.#life += 1;
    this.#open = 0;
    await this.#store.close();
    this.#store = this.#opened();
    this.#sessions = this.#started();
    await this.#sessions.reopen();
    await this.#sessions.whole;
    await this.settled();
  }

  setClock(by: number, noticed: boolean, now: number): void {
    this.#now = now;
    // The product's clock counts by itself: it changes only when the change is noticed, and never falls behind the
    // record.
    if (!noticed) return;
    this.#offset = Math.max(this.#offset + by, this.#newest - now);
    this.#working(this.#sessions.clockStepped(by));
  }

  async settled(): Promise<void> {
    for (let quiet = 0; quiet < 3; quiet = this.#open === 0 ? quiet + 1 : 0)
      await new Promise((done) => setImmediate(done));
    this.state = (await this.#sessions.get(this.state.id)).state;
  }

  async log(): Promise<SessionEvent[]> {
    const stored = await this.#store.read(this.state.id, 0, Number.MAX_SAFE_INTEGER);
    return stored.map(({ body }) => readSealed(body).event);
  }

  async close(): Promise<void> {
    this.#life += 1;
    this.#sessions.close();
    await this.#store.close();
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
