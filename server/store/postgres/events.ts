import { performance } from "node:perf_hooks";
import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import {
  type Append,
  type CheckpointRecord,
  ConcurrencyError,
  type EventStore,
  RECORD_STAGE,
  type RemovalRecord,
  type SessionHead,
  type SessionRow,
  type StoredEvent,
  StoreFailure,
} from "../events.ts";
import type { Moved } from "../moves.ts";
import { faultOf, messageOf } from "./fault.ts";
import { type Place, PostgresLink, settings } from "./link.ts";
import { movedSince } from "./moved.ts";
import { IS_SESSION, IS_START, newest } from "./newest.ts";
import { appendStatement, EVENT_COLUMNS, ROW_COLUMNS } from "./statement.ts";

/** Time for which an append is tried again after the connection was lost. Milliseconds. */
const TRY_MS = 2_000;
const AGAIN_MS = 50;
/** Every attempt gets at least this time. Milliseconds. */
const LEAST_MS = 250;

const READERS = 4;
const GROUP = 250;

const ADD_REMOVAL = `INSERT INTO "Removal" ("id", "at", "note", "publicKey") VALUES ($1, $2, $3, $4)`;
const valuesOf = ({ id, at, note, publicKey }: RemovalRecord) => [id, at, note, publicKey];

interface Waiting {
  append: Append;
  /** Deadline by the steady clock. */
  until: number;
  kept(): void;
  failed(error: Error): void;
}

/**
 * Stores the evidence in PostgreSQL, for any number of servers. It uses the driver instead of Prisma, because a group
 * commit is one statement here and would be a transaction with several round trips there.
 *
 * While one group is being committed, the next one gathers. An append whose answer was lost with the connection is
 * sent again. If it had succeeded, it conflicts with itself; its hash distinguishes that from a conflict with another
 * append.
 */
export class PostgresEventStore implements EventStore {
  readonly #writer: PostgresLink;
  readonly #readers: pg.Pool;
  #waiting: Waiting[] = [];
  #writing: Promise<void> | null = null;

  /** @param place a database that `openPostgres` has migrated */
  constructor(place: Place) {
    this.#writer = new PostgresLink(place, "writer");
    this.#readers = new pg.Pool({ ...settings(place, "reader"), max: READERS, query_timeout: 5_000 });
    // The pool replaces a broken idle connection when it needs one.
    this.#readers.on("error", () => {});
  }

  append(append: Append): Promise<void> {
    return new Promise((kept, failed) => {
      if (append.events[0]?.seq !== append.expected + 1)
        return failed(new ConcurrencyError(append.row.id, append.expected));
      this.#waiting.push({ append, until: performance.now() + TRY_MS, kept, failed });
      this.#writing ??= this.#writeAll();
    });
  }

  read(session: string, since: number, limit: number): Promise<StoredEvent[]> {
    return this.#select<StoredEvent>(
      `SELECT ${EVENT_COLUMNS} FROM "Event" WHERE "session" = $1 AND "seq" > $2 ORDER BY "seq" LIMIT $3`,
      [session, since, limit],
    );
  }

  ofCommand(session: string, command: string): Promise<StoredEvent[]> {
    return this.#select<StoredEvent>(
      `SELECT ${EVENT_COLUMNS} FROM "Event" WHERE "session" = $1 AND "command" = $2 ORDER BY "seq"`,
      [session, command],
    );
  }

  session(id: string): Promise<SessionRow | null> {
    return this.#row(`WHERE "id" = $1`, [id]);
  }

  sessionByCode(code: string): Promise<SessionRow | null> {
    return this.#row(`WHERE "code" = $1`, [code]);
  }

  sessionByPlan(command: string): Promise<SessionRow | null> {
    return this.#row(`WHERE "planCommand" = $1`, [command]);
  }

  lastSessionOf(aircraft: string): Promise<SessionRow | null> {
    return this.#row(
      `WHERE "aircraft" = $1 AND ${IS_SESSION} ORDER BY "createdAt" DESC, "id" COLLATE "C" DESC LIMIT 1`,
      [aircraft],
    );
  }

  sessions(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]> {
    return this.#rows(...newest("start", limit, before));
  }

  rehearsals(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]> {
    return this.#rows(...newest("rehearsal", limit, before));
  }

  records(): Promise<SessionRow[]> {
    return this.#rows(`WHERE "stage" = '${RECORD_STAGE}' ORDER BY "id" COLLATE "C"`, []);
  }

  sessionsOf(aircraft: string, limit: number): Promise<SessionRow[]> {
    return this.#rows(
      `WHERE "aircraft" = $1 AND ${IS_START} ORDER BY "createdAt" DESC, "id" COLLATE "C" DESC LIMIT $2`,
      [aircraft, limit],
    );
  }

  moved(mark: string | null): Promise<Moved> {
    return movedSince((text, values) => this.#select(text, values), mark);
  }

  openSessions(): Promise<SessionRow[]> {
    return this.#rows(`WHERE "closedAt" IS NULL ORDER BY "createdAt"`, []);
  }

  openHeads(): Promise<SessionHead[]> {
    return this.#select<SessionHead>(`SELECT "id", "headSeq" FROM "Session" WHERE "closedAt" IS NULL`, []);
  }

  async addCheckpoint({ session, size, at, note, publicKey }: CheckpointRecord): Promise<void> {
    await this.#select(
      `INSERT INTO "Checkpoint" ("session", "size", "at", "note", "publicKey") VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT DO NOTHING`,
      [session, size, at, note, publicKey],
    );
  }

  checkpoints(session: string): Promise<CheckpointRecord[]> {
    return this.#select<CheckpointRecord>(
      `SELECT "session", "size", "at", "note", "publicKey" FROM "Checkpoint" WHERE "session" = $1 ORDER BY "size"`,
      [session],
    );
  }

  async remove(session: string, removal: RemovalRecord): Promise<void> {
    const client = await this.#readers.connect().catch((error) => {
      throw new StoreFailure(messageOf(error), { cause: error });
    });
    const guards = (turn: "DISABLE" | "ENABLE") =>
      ["Event", "Checkpoint"]
        .map((table) => `ALTER TABLE "${table}" ${turn} TRIGGER "${table}_no_delete"`)
        .join("; ");
    try {
      await client.query("BEGIN");
      const gone = await client.query(`DELETE FROM "Session" WHERE "id" = $1 AND "closedAt" IS NOT NULL`, [
        session,
      ]);
      if (gone.rowCount !== 1) throw new Error(`session ${session} is not over`);
      // The only way past the triggers that forbid deletion. They are enabled again before the commit.
      await client.query(guards("DISABLE"));
      await client.query(`DELETE FROM "Event" WHERE "session" = $1`, [session]);
      await client.query(`DELETE FROM "Checkpoint" WHERE "session" = $1`, [session]);
      await client.query(guards("ENABLE"));
      await client.query(ADD_REMOVAL, valuesOf(removal));
      await client.query("COMMIT");
    } catch (error) {
      await client.query("ROLLBACK").catch(() => {});
      throw new StoreFailure(messageOf(error), { cause: error });
    } finally {
      client.release();
    }
  }

  async addRemoval(removal: RemovalRecord): Promise<void> {
    await this.#select(ADD_REMOVAL, valuesOf(removal));
  }

  removals(): Promise<RemovalRecord[]> {
    return this.#select<RemovalRecord>(
      `SELECT "id", "at", "note", "publicKey" FROM "Removal" ORDER BY "at", "id"`,
      [],
    );
  }

  async newestAt(): Promise<number> {
    const [row] = await this.#select<{ at: number | null }>(
      `SELECT max("headAt") AS "at" FROM "Session"`,
      [],
    );
    return row?.at ?? 0;
  }

  async probe(): Promise<void> {
    // Use the writer's connection: recording depends on it.
    const text = `INSERT INTO "Meta" ("key", "value") VALUES ('probe', '1')
       ON CONFLICT ("key") DO UPDATE SET "value" = ("Meta"."value"::bigint + 1)::text`;
    try {
      await this.#writer.query({ name: "probe", text, values: [] }, TRY_MS);
    } catch (error) {
      throw new StoreFailure(messageOf(error), { cause: error });
    }
  }

  async close(): Promise<void> {
    await this.#writing;
    await Promise.all([this.#writer.close(), this.#readers.end()]);
  }

  async #row(rest: string, values: readonly unknown[]): Promise<SessionRow | null> {
    return (await this.#rows(rest, values))[0] ?? null;
  }

  #rows(rest: string, values: readonly unknown[]): Promise<SessionRow[]> {
    return this.#select<SessionRow>(`SELECT ${ROW_COLUMNS} FROM "Session" ${rest}`, values);
  }

  async #select<R extends pg.QueryResultRow>(text: string, values: readonly unknown[]): Promise<R[]> {
    try {
      return (await this.#readers.query<R>(text, [...values])).rows;
    } catch (error) {
      throw new StoreFailure(messageOf(error), { cause: error });
    }
  }

  async #writeAll(): Promise<void> {
    // Let the appends of this turn of the event loop join the first group.
    await new Promise(setImmediate);
    while (this.#waiting.length > 0) await this.#commit(this.#nextGroup());
    this.#writing = null;
  }

  /**
   * Returns the longest waiting appends, at most one per session: a session's second append depends on the result of
   * its first.
   */
  #nextGroup(): Waiting[] {
    const group = new Map<string, Waiting>();
    const later: Waiting[] = [];
    for (const one of this.#waiting) {
      const { id } = one.append.row;
      if (group.size < GROUP && !group.has(id)) group.set(id, one);
      else later.push(one);
    }
    this.#waiting = later;
    return [...group.values()];
  }

  /** @param sent true when an earlier attempt may have stored them */
  async #commit(group: readonly Waiting[], sent = false): Promise<void> {
    const until = Math.min(...group.map((one) => one.until));
    const left = () => Math.max(LEAST_MS, until - performance.now());
    const statement = appendStatement(group.map((one) => one.append));
    for (let again = sent; ; again = true) {
      try {
        const { rows } = await this.#writer.query<{ id: string }>(statement, left());
        const kept = new Set(rows.map((row) => row.id));
        for (const one of group) {
          const { row, expected } = one.append;
          if (kept.has(row.id) || (again && (await this.#isKept(one.append, left())))) one.kept();
          else one.failed(new ConcurrencyError(row.id, expected));
        }
        return;
      } catch (error) {
        const fault = faultOf(error);
        if (fault === "lost" && performance.now() < until) await pause(AGAIN_MS);
        else return this.#failed(group, error, again);
      }
    }
  }

  async #failed(group: readonly Waiting[], error: unknown, sent: boolean): Promise<void> {
    const fault = faultOf(error);
    // Commit each append alone, so that the fault of one does not fail the others.
    if (group.length > 1 && fault !== "lost") for (const one of group) await this.#commit([one], sent);
    else
      for (const { append, failed } of group)
        failed(
          fault === "conflict"
            ? new ConcurrencyError(append.row.id, append.expected)
            : new StoreFailure(messageOf(error), { cause: error }),
        );
  }

  /** Returns true when an append whose answer was lost was stored: its first event has the same hash. */
  async #isKept({ row, events }: Append, withinMs: number): Promise<boolean> {
    const [first] = events;
    const { rows } = await this.#writer.query<{ hash: string }>(
      {
        name: "kept",
        text: `SELECT "hash" FROM "Event" WHERE "session" = $1 AND "seq" = $2`,
        values: [row.id, first?.seq],
      },
      withinMs,
    );
    return rows[0]?.hash === first?.hash;
  }
}
