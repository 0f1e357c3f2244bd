import type Database from "better-sqlite3";
import {
  type Append,
  type CheckpointRecord,
  ConcurrencyError,
  type RemovalRecord,
  type SessionRow,
  StoreFailure,
} from "./events.ts";
import { type FileIdentity, identityOf, SameFile } from "./same-file.ts";

/**
 * One write of the evidence, or of what changes as often beside it: a second handle would wait in the main thread while
 * this one flushes. Plain data, as its outcome is, so that both can be sent between threads.
 */
export type Write =
  | { is: "append"; append: Append }
  | { is: "checkpoint"; checkpoint: CheckpointRecord }
  | { is: "remove"; session: string; removal: RemovalRecord }
  | { is: "removal"; removal: RemovalRecord }
  | { is: "used"; signIns: readonly string[]; at: number }
  | { is: "probe" };

export type Outcome =
  | { is: "kept" }
  /** The session is not at the expected number: another append came first. */
  | { is: "conflict" }
  | { is: "fault"; message: string };

/** Writes the evidence, in this thread or in another. */
export interface Writer {
  /** Resolves to one outcome per write, in order, once all that was stored is durable. Never rejects. */
  write(group: readonly Write[]): Promise<Outcome[]>;
  /** Resolves once all pending writes are done. */
  close(): Promise<void>;
}

const KEPT: Outcome = { is: "kept" };

export const SESSION_COLUMNS = [
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

/** Writes the evidence through one open handle. Each group is one transaction, and so one flush of the disk. */
export class SqliteWriter {
  readonly #db: Database.Database;
  readonly #sql;
  readonly #transaction: (group: readonly Write[]) => void;
  readonly #same: SameFile | null;

  /** @param identity of the file when the server opened it */
  constructor(db: Database.Database, identity: FileIdentity = identityOf(db.name)) {
    this.#db = db;
    this.#same = db.memory ? null : new SameFile(db.name, identity);
    const names = SESSION_COLUMNS.map((c) => `"${c}"`).join(", ");
    this.#sql = {
      insertRow: db.prepare(
        `INSERT INTO "Session" (${names}) VALUES (${SESSION_COLUMNS.map((c) => `@${c}`).join(", ")})`,
      ),
      updateRow: db.prepare(
        `UPDATE "Session" SET "stage" = @stage, "needs" = @needs, "closedAt" = @closedAt, "headSeq" = @headSeq,
           "headHash" = @headHash, "headAt" = @headAt WHERE "id" = @id AND "headSeq" = @expected`,
      ),
      insertEvent: db.prepare(
        `INSERT INTO "Event" ("session", "seq", "at", "type", "command", "body", "hash") VALUES (?, ?, ?, ?, ?, ?, ?)`,
      ),
      addCheckpoint: db.prepare(
        `INSERT INTO "Checkpoint" ("session", "size", "at", "note", "publicKey")
         VALUES (@session, @size, @at, @note, @publicKey) ON CONFLICT DO NOTHING`,
      ),
      addRemoval: db.prepare(
        `INSERT INTO "Removal" ("id", "at", "note", "publicKey") VALUES (@id, @at, @note, @publicKey)`,
      ),
      removeSession: db.prepare(`DELETE FROM "Session" WHERE "id" = ? AND "closedAt" IS NOT NULL`),
      used: db.prepare(`UPDATE "SignIn" SET "usedAt" = ? WHERE "id" = ?`),
      probe: db.prepare(
        `INSERT INTO "Meta" ("key", "value") VALUES ('probe', '1')
         ON CONFLICT ("key") DO UPDATE SET "value" = CAST("value" AS INTEGER) + 1`,
      ),
    };
    this.#transaction = db.transaction((group: readonly Write[]) => {
      for (const write of group) this.#write(write);
    }).immediate;
  }

  /** Returns one outcome per write, in order, once all that was stored is durable. */
  write(group: readonly Write[]): Outcome[] {
    const before = this.#same?.fault() ?? null;
    const outcomes = before === null ? this.#writeGroup(group) : [];
    // Looked at again: what was written meanwhile may be in a file that has no name any more.
    const message = before ?? this.#same?.fault() ?? null;
    return message === null ? outcomes : group.map(() => ({ is: "fault", message }));
  }

  #writeGroup(group: readonly Write[]): Outcome[] {
    try {
      this.#transaction(group);
      return group.map(() => KEPT);
    } catch (error) {
      const outcome = outcomeOf(error);
      // Do not retry one by one: the lock affects all, and each would wait for it again.
      if (group.length === 1 || isLocked(error)) return group.map(() => outcome);
      // Write each alone, so that the conflict of one does not fail the others.
      return group.flatMap((one) => this.#writeGroup([one]));
    }
  }

  #write(write: Write): void {
    if (write.is === "append") this.#append(write.append);
    else if (write.is === "checkpoint") this.#sql.addCheckpoint.run(write.checkpoint);
    else if (write.is === "remove") this.#remove(write.session, write.removal);
    else if (write.is === "removal") this.#sql.addRemoval.run(write.removal);
    else if (write.is === "used") for (const id of write.signIns) this.#sql.used.run(write.at, id);
    else this.#sql.probe.run();
  }

  #append({ expected, events, row }: Append): void {
    const first = events[0]?.seq;
    if (first !== expected + 1) throw new ConcurrencyError(row.id, expected);
    if (expected === 0) this.#sql.insertRow.run(row);
    else if (this.#sql.updateRow.run({ ...row, expected }).changes !== 1)
      throw new ConcurrencyError(row.id, expected);
    for (const e of events) this.#sql.insertEvent.run(row.id, e.seq, e.at, e.type, e.command, e.body, e.hash);
  }

  #remove(session: string, removal: RemovalRecord): void {
    const db = this.#db;
    if (this.#sql.removeSession.run(session).changes !== 1)
      throw new StoreFailure(`session ${session} is not over`);
    // The only way past the triggers that forbid deletion. They are created again before the commit.
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
  }
}

const codeOf = (error: unknown): string => (error as { code?: string }).code ?? "";

const isLocked = (error: unknown): boolean => codeOf(error).startsWith("SQLITE_BUSY");

/** Classifies an error: a unique violation means that another append came first; anything else is a fault. */
function outcomeOf(error: unknown): Outcome {
  const taken = ["SQLITE_CONSTRAINT_PRIMARYKEY", "SQLITE_CONSTRAINT_UNIQUE"].includes(codeOf(error));
  if (taken || error instanceof ConcurrencyError) return { is: "conflict" };
  return { is: "fault", message: error instanceof Error ? error.message : String(error) };
}
