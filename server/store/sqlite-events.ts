import { randomUUID } from "node:crypto";
import type Database from "better-sqlite3";
import { REHEARSAL_ID } from "../../shared/protocol/rehearsal.ts";
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
} from "./events.ts";
import { headOf, type IndexedHead, type Moved, Moves } from "./moves.ts";
import { type Outcome, SESSION_COLUMNS, SqliteWriter, type Write, type Writer } from "./sqlite-writer.ts";

const IS_SESSION = `"stage" <> '${RECORD_STAGE}'`;
/** The id alone tells, so that no list can mix them up. */
const IS_REHEARSAL = `"id" LIKE '${REHEARSAL_ID}%'`;
const IS_START = `${IS_SESSION} AND NOT (${IS_REHEARSAL})`;

interface Waiting {
  write: Write;
  done(outcome: Outcome): void;
}

/**
 * Stores the evidence in SQLite. It uses better-sqlite3 instead of Prisma, on the same file: every answer waits for
 * an append, and prepared statements in one synchronous transaction take a tenth of the time that Prisma takes. All
 * else in the database goes through Prisma (`prisma-directory.ts`).
 *
 * Writes of the same turn of the event loop are committed together, so that one flush of the disk serves many
 * sessions.
 */
export class SqliteEventStore implements EventStore {
  readonly #db: Database.Database;
  readonly #sql;
  readonly #writer: Writer;
  /** One process at a time has the file: see `lockDatabase`. */
  readonly #moves = new Moves(randomUUID());
  #waiting: Waiting[] = [];

  /**
   * @param db an open handle from `openDatabase`; `close()` closes it
   * @param writer writes to the same file; by default this thread writes, through `db`
   */
  constructor(db: Database.Database, writer?: Writer) {
    this.#db = db;
    this.#writer = writer ?? inThisThread(db);
    const names = SESSION_COLUMNS.map((c) => `"${c}"`).join(", ");
    const select = (rest: string) =>
      db.prepare<unknown[], SessionRow>(`SELECT ${names} FROM "Session" ${rest}`);
    this.#sql = {
      read: db.prepare<unknown[], StoredEvent>(
        `SELECT "seq", "at", "type", "command", "body", "hash" FROM "Event"
         WHERE "session" = ? AND "seq" > ? ORDER BY "seq" LIMIT ?`,
      ),
      ofCommand: db.prepare<unknown[], StoredEvent>(
        `SELECT "seq", "at", "type", "command", "body", "hash" FROM "Event"
         WHERE "session" = ? AND "command" = ? ORDER BY "seq"`,
      ),
      byId: select(`WHERE "id" = ?`),
      byCode: select(`WHERE "code" = ?`),
      byPlan: select(`WHERE "planCommand" = ?`),
      lastOf: select(`WHERE "aircraft" = ? AND ${IS_SESSION} ORDER BY "createdAt" DESC, "id" DESC LIMIT 1`),
      newest: select(`WHERE ${IS_START} ORDER BY "createdAt" DESC, "id" DESC LIMIT ?`),
      newestBefore: select(
        `WHERE ${IS_START} AND ("createdAt", "id") < (?, ?) ORDER BY "createdAt" DESC, "id" DESC LIMIT ?`,
      ),
      newestOf: select(`WHERE "aircraft" = ? AND ${IS_START} ORDER BY "createdAt" DESC, "id" DESC LIMIT ?`),
      rehearsals: select(`WHERE ${IS_REHEARSAL} ORDER BY "createdAt" DESC, "id" DESC LIMIT ?`),
      rehearsalsBefore: select(
        `WHERE ${IS_REHEARSAL} AND ("createdAt", "id") < (?, ?) ORDER BY "createdAt" DESC, "id" DESC LIMIT ?`,
      ),
      records: select(`WHERE "stage" = '${RECORD_STAGE}' ORDER BY "id"`),
      heads: db.prepare<[], IndexedHead>(`SELECT "id", "headSeq", "aircraft", "stage" FROM "Session"`),
      open: select(`WHERE "closedAt" IS NULL ORDER BY "createdAt"`),
      openHeads: db.prepare<[], SessionHead>(
        `SELECT "id", "headSeq" FROM "Session" WHERE "closedAt" IS NULL`,
      ),
      newestAt: db.prepare<[], { at: number | null }>(`SELECT max("headAt") AS "at" FROM "Session"`),
      checkpoints: db.prepare<unknown[], CheckpointRecord>(
        `SELECT "session", "size", "at", "note", "publicKey" FROM "Checkpoint" WHERE "session" = ? ORDER BY "size"`,
      ),
      removals: db.prepare<[], RemovalRecord>(
        `SELECT "id", "at", "note", "publicKey" FROM "Removal" ORDER BY "at", "id"`,
      ),
    };
  }

  async append(append: Append): Promise<void> {
    const outcome = await this.#write({ is: "append", append });
    if (outcome.is === "conflict") throw new ConcurrencyError(append.row.id, append.expected);
    kept(outcome);
    this.#moves.note(append.row.id, headOf(append.row));
  }

  async read(session: string, since: number, limit: number): Promise<StoredEvent[]> {
    return this.#try(() => this.#sql.read.all(session, since, limit));
  }

  async ofCommand(session: string, command: string): Promise<StoredEvent[]> {
    return this.#try(() => this.#sql.ofCommand.all(session, command));
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

  async sessions(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]> {
    const { newest, newestBefore } = this.#sql;
    return this.#try(() =>
      before ? newestBefore.all(before.createdAt, before.id, limit) : newest.all(limit),
    );
  }

  async rehearsals(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]> {
    const { rehearsals, rehearsalsBefore } = this.#sql;
    return this.#try(() =>
      before ? rehearsalsBefore.all(before.createdAt, before.id, limit) : rehearsals.all(limit),
    );
  }

  async lastSessionOf(aircraft: string): Promise<SessionRow | null> {
    return this.#try(() => this.#sql.lastOf.get(aircraft) ?? null);
  }

  async records(): Promise<SessionRow[]> {
    return this.#try(() => this.#sql.records.all());
  }

  async sessionsOf(aircraft: string, limit: number): Promise<SessionRow[]> {
    return this.#try(() => this.#sql.newestOf.all(aircraft, limit));
  }

  async moved(mark: string | null): Promise<Moved> {
    const since = this.#moves.since(mark);
    if (since) return { all: false, ...since };
    // The mark first: what is stored meanwhile is told again.
    const now = this.#moves.mark;
    return { all: true, heads: this.#try(() => this.#sql.heads.all()), gone: [], mark: now };
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
    kept(await this.#write({ is: "checkpoint", checkpoint }));
  }

  async checkpoints(session: string): Promise<CheckpointRecord[]> {
    return this.#try(() => this.#sql.checkpoints.all(session));
  }

  async remove(session: string, removal: RemovalRecord): Promise<void> {
    kept(await this.#write({ is: "remove", session, removal }));
    this.#moves.note(session, null);
  }

  async addRemoval(removal: RemovalRecord): Promise<void> {
    kept(await this.#write({ is: "removal", removal }));
  }

  async removals(): Promise<RemovalRecord[]> {
    return this.#try(() => this.#sql.removals.all());
  }

  /** Saves when sign-ins were last used. */
  async usedSignIns(signIns: readonly string[], at: number): Promise<void> {
    kept(await this.#write({ is: "used", signIns, at }));
  }

  async probe(): Promise<void> {
    kept(await this.#write({ is: "probe" }));
  }

  async close(): Promise<void> {
    const last = this.#flush();
    await this.#writer.close();
    await last;
    this.#db.close();
  }

  #write(write: Write): Promise<Outcome> {
    return new Promise((done) => {
      this.#waiting.push({ write, done });
      if (this.#waiting.length === 1) setImmediate(() => void this.#flush());
    });
  }

  async #flush(): Promise<void> {
    const group = this.#waiting;
    if (group.length === 0) return;
    this.#waiting = [];
    const outcomes = await this.#writer.write(group.map(({ write }) => write));
    for (const [i, { done }] of group.entries()) done(outcomes[i] as Outcome);
  }

  #try<T>(work: () => T): T {
    try {
      return work();
    } catch (error) {
      throw new StoreFailure(error instanceof Error ? error.message : String(error), { cause: error });
    }
  }
}

function inThisThread(db: Database.Database): Writer {
  const writer = new SqliteWriter(db);
  return { write: async (group) => writer.write(group), close: async () => {} };
}

/** @throws StoreFailure unless it was stored */
function kept(outcome: Outcome): void {
  if (outcome.is !== "kept")
    throw new StoreFailure(outcome.is === "fault" ? outcome.message : "it is there already");
}
