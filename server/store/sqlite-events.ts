import type Database from "better-sqlite3";
import {
  type Append,
  type CheckpointRecord,
  ConcurrencyError,
  type EventStore,
  type RemovalRecord,
  type SessionHead,
  type SessionRow,
  type StoredEvent,
  StoreFailure,
} from "./events.ts";

interface Waiting {
  append: Append;
  kept(): void;
  failed(error: Error): void;
}

const COLUMNS = [
  "id",
  "code",
  "planCommand",
  "aircraft",
  "typeId",
  "typeVersion",
  "typeName",
  "place",
  "stage",
  "needs",
  "createdAt",
  "closedAt",
  "headSeq",
  "headHash",
  "headAt",
] as const satisfies readonly (keyof SessionRow)[];

/**
 * The evidence in SQLite. It uses better-sqlite3 itself, not Prisma, on the same file: an append is the one thing
 * every answer waits for, and prepared statements in one synchronous transaction cost a tenth of a client's round
 * through its query compiler. Everything else in the database goes through Prisma (`prisma-directory.ts`).
 *
 * Appends that arrive in the same turn of the event loop are committed together, so that one flush of the disk
 * serves many sessions.
 */
export class SqliteEventStore implements EventStore {
  readonly #db: Database.Database;
  readonly #sql;
  readonly #commit: (group: readonly Waiting[]) => void;
  #waiting: Waiting[] = [];

  /** @param db an open handle as `openDatabase` gives it; closed by `close()` */
  constructor(db: Database.Database) {
    this.#db = db;
    const names = COLUMNS.map((c) => `"${c}"`).join(", ");
    const select = (rest: string) =>
      db.prepare<unknown[], SessionRow>(`SELECT ${names} FROM "Session" ${rest}`);
    this.#sql = {
      insertRow: db.prepare(
        `INSERT INTO "Session" (${names}) VALUES (${COLUMNS.map((c) => `@${c}`).join(", ")})`,
      ),
      updateRow: db.prepare(
        `UPDATE "Session" SET "stage" = @stage, "needs" = @needs, "closedAt" = @closedAt, "headSeq" = @headSeq,
           "headHash" = @headHash, "headAt" = @headAt WHERE "id" = @id AND "headSeq" = @expected`,
      ),
      insertEvent: db.prepare(
        `INSERT INTO "Event" ("session", "seq", "at", "type", "command", "body", "hash") VALUES (?, ?, ?, ?, ?, ?, ?)`,
      ),
      read: db.prepare<unknown[], StoredEvent>(
        `SELECT "seq", "at", "type", "command", "body", "hash" FROM "Event"
         WHERE "session" = ? AND "seq" > ? ORDER BY "seq" LIMIT ?`,
      ),
      byId: select(`WHERE "id" = ?`),
      byCode: select(`WHERE "code" = ?`),
      byPlan: select(`WHERE "planCommand" = ?`),
      lastOf: select(`WHERE "aircraft" = ? ORDER BY "createdAt" DESC, "id" DESC LIMIT 1`),
      newest: select(`ORDER BY "createdAt" DESC, "id" DESC LIMIT ?`),
      open: select(`WHERE "closedAt" IS NULL ORDER BY "createdAt"`),
      openHeads: db.prepare<[], SessionHead>(
        `SELECT "id", "headSeq" FROM "Session" WHERE "closedAt" IS NULL`,
      ),
      newestAt: db.prepare<[], { at: number | null }>(`SELECT max("headAt") AS "at" FROM "Session"`),
      addCheckpoint: db.prepare(
        `INSERT INTO "Checkpoint" ("session", "size", "at", "note", "publicKey")
         VALUES (@session, @size, @at, @note, @publicKey) ON CONFLICT DO NOTHING`,
      ),
      checkpoints: db.prepare<unknown[], CheckpointRecord>(
        `SELECT "session", "size", "at", "note", "publicKey" FROM "Checkpoint" WHERE "session" = ? ORDER BY "size"`,
      ),
      addRemoval: db.prepare(
        `INSERT INTO "Removal" ("id", "at", "note", "publicKey") VALUES (@id, @at, @note, @publicKey)`,
      ),
      removals: db.prepare<[], RemovalRecord>(
        `SELECT "id", "at", "note", "publicKey" FROM "Removal" ORDER BY "at", "id"`,
      ),
      probe: db.prepare(
        `INSERT INTO "Meta" ("key", "value") VALUES ('probe', '1')
         ON CONFLICT ("key") DO UPDATE SET "value" = CAST("value" AS INTEGER) + 1`,
      ),
    };
    this.#commit = db.transaction((group: readonly Waiting[]) => {
      for (const { append } of group) this.#write(append);
    }).immediate;
  }

  append(append: Append): Promise<void> {
    return new Promise((kept, failed) => {
      this.#waiting.push({ append, kept, failed });
      if (this.#waiting.length === 1) setImmediate(() => this.#flush());
    });
  }

  async read(session: string, since: number, limit: number): Promise<StoredEvent[]> {
    return this.#try(() => this.#sql.read.all(session, since, limit));
  }

  async session(id: string): Promise<SessionRow | null> {
    return this.#try(() => this.#sql.byId.get(id) ?? null);
  }

  async sessionByCode(code: string): Promise<SessionRow | null> {
    return this.#try(() => this.#sql.byCode.get(code) ?? null);
  }

  async sessionByPlan(command: string): Promise<SessionRow | null> {
    return this.#try(() => this.#sql.byPlan.get(command) ?? null);
  }

  async sessions(limit: number): Promise<SessionRow[]> {
    return this.#try(() => this.#sql.newest.all(limit));
  }

  async lastSessionOf(aircraft: string): Promise<SessionRow | null> {
    return this.#try(() => this.#sql.lastOf.get(aircraft) ?? null);
  }

  async openSessions(): Promise<SessionRow[]> {
    return this.#try(() => this.#sql.open.all());
  }

  async openHeads(): Promise<SessionHead[]> {
    return this.#try(() => this.#sql.openHeads.all());
  }

  async newestAt(): Promise<number> {
    return this.#try(() => this.#sql.newestAt.get()?.at ?? 0);
  }

  async addCheckpoint(checkpoint: CheckpointRecord): Promise<void> {
    this.#try(() => this.#sql.addCheckpoint.run(checkpoint));
  }

  async checkpoints(session: string): Promise<CheckpointRecord[]> {
    return this.#try(() => this.#sql.checkpoints.all(session));
  }

  async remove(session: string, removal: RemovalRecord): Promise<void> {
    const db = this.#db;
    const work = db.transaction(() => {
      const gone = db.prepare(`DELETE FROM "Session" WHERE "id" = ? AND "closedAt" IS NOT NULL`).run(session);
      if (gone.changes !== 1) throw new StoreFailure(`session ${session} is not over`);
      // The one way past the guards, which stand again before anything of this counts.
      const guards = db
        .prepare<[], { name: string; sql: string }>(
          `SELECT "name", "sql" FROM sqlite_master WHERE "type" = 'trigger'
           AND "name" IN ('Event_no_delete', 'Checkpoint_no_delete')`,
        )
        .all();
      for (const { name } of guards) db.exec(`DROP TRIGGER "${name}"`);
      db.prepare(`DELETE FROM "Event" WHERE "session" = ?`).run(session);
      db.prepare(`DELETE FROM "Checkpoint" WHERE "session" = ?`).run(session);
      for (const { sql } of guards) db.exec(sql);
      this.#sql.addRemoval.run(removal);
    });
    this.#try(() => work.immediate());
  }

  async addRemoval(removal: RemovalRecord): Promise<void> {
    this.#try(() => this.#sql.addRemoval.run(removal));
  }

  async removals(): Promise<RemovalRecord[]> {
    return this.#try(() => this.#sql.removals.all());
  }

  async probe(): Promise<void> {
    this.#try(() => this.#sql.probe.run());
  }

  async close(): Promise<void> {
    this.#flush();
    this.#db.close();
  }

  #flush(): void {
    const group = this.#waiting;
    this.#waiting = [];
    if (group.length === 0) return;
    try {
      this.#commit(group);
    } catch (error) {
      if (group.length === 1) for (const one of group) one.failed(asFault(error, one.append));
      // One append's conflict must not fail its neighbours: each stands alone now.
      else for (const one of group) this.#alone(one);
      return;
    }
    for (const one of group) one.kept();
  }

  #alone(one: Waiting): void {
    try {
      this.#commit([one]);
    } catch (error) {
      one.failed(asFault(error, one.append));
      return;
    }
    one.kept();
  }

  #write({ expected, events, row }: Append): void {
    const first = events[0]?.seq;
    if (first !== expected + 1) throw new ConcurrencyError(row.id, expected);
    if (expected === 0) this.#sql.insertRow.run(row);
    else if (this.#sql.updateRow.run({ ...row, expected }).changes !== 1)
      throw new ConcurrencyError(row.id, expected);
    for (const e of events) this.#sql.insertEvent.run(row.id, e.seq, e.at, e.type, e.command, e.body, e.hash);
  }

  #try<T>(work: () => T): T {
    try {
      return work();
    } catch (error) {
      throw new StoreFailure(messageOf(error), { cause: error });
    }
  }
}

/** A broken uniqueness is the database's way to say that somebody was first; anything else is the disk's. */
function asFault(error: unknown, { row, expected }: Append): Error {
  if (error instanceof ConcurrencyError) return error;
  const code = (error as { code?: string }).code ?? "";
  if (code === "SQLITE_CONSTRAINT_PRIMARYKEY" || code === "SQLITE_CONSTRAINT_UNIQUE")
    return new ConcurrencyError(row.id, expected);
  return new StoreFailure(messageOf(error), { cause: error });
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
