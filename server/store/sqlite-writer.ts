import type Database from "better-sqlite3";
import {
  type Append,
  type CheckpointRecord,
  ConcurrencyError,
  type RemovalRecord,
  type SessionRow,
  StoreFailure,
} from "./events.ts";

/** One thing to write. Plain, as its outcome is, so that both can cross from one thread to another. */
export type Write =
  | { is: "append"; append: Append }
  | { is: "checkpoint"; checkpoint: CheckpointRecord }
  | { is: "remove"; session: string; removal: RemovalRecord }
  | { is: "removal"; removal: RemovalRecord }
  | { is: "probe" };

export type Outcome =
  | { is: "kept" }
  /** The session is not where the appender thought: somebody was first. */
  | { is: "conflict" }
  | { is: "fault"; message: string };

/** Where the evidence is written: in this thread, or in one of its own. */
export interface Writer {
  /** Resolves to one outcome for each, in their order, once all that was kept is durable. Never rejects. */
  write(group: readonly Write[]): Promise<Outcome[]>;
  /** Resolves once all that was given is done with. */
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

/** Writes the evidence through one open handle: each group in one transaction, so that one flush of the disk serves it. */
export class SqliteWriter {
  readonly #db: Database.Database;
  readonly #sql;
  readonly #transaction: (group: readonly Write[]) => void;

  constructor(db: Database.Database) {
    this.#db = db;
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
      probe: db.prepare(
        `INSERT INTO "Meta" ("key", "value") VALUES ('probe', '1')
         ON CONFLICT ("key") DO UPDATE SET "value" = CAST("value" AS INTEGER) + 1`,
      ),
    };
    this.#transaction = db.transaction((group: readonly Write[]) => {
      for (const write of group) this.#write(write);
    }).immediate;
  }

  /** One outcome for each, in their order. Returns once all that was kept is durable. */
  write(group: readonly Write[]): Outcome[] {
    try {
      this.#transaction(group);
      return group.map(() => KEPT);
    } catch (error) {
      const outcome = outcomeOf(error);
      // A lock keeps all of them out, and each would wait for it again.
      if (group.length === 1 || isLocked(error)) return group.map(() => outcome);
      // One's conflict must not fail its neighbours: each stands alone now.
      return group.flatMap((one) => this.write([one]));
    }
  }

  #write(write: Write): void {
    if (write.is === "append") this.#append(write.append);
    else if (write.is === "checkpoint") this.#sql.addCheckpoint.run(write.checkpoint);
    else if (write.is === "remove") this.#remove(write.session, write.removal);
    else if (write.is === "removal") this.#sql.addRemoval.run(write.removal);
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
  }
}

const codeOf = (error: unknown): string => (error as { code?: string }).code ?? "";

const isLocked = (error: unknown): boolean => codeOf(error).startsWith("SQLITE_BUSY");

/** A broken uniqueness is the database's way to say that somebody was first; anything else is the disk's. */
function outcomeOf(error: unknown): Outcome {
  const taken = ["SQLITE_CONSTRAINT_PRIMARYKEY", "SQLITE_CONSTRAINT_UNIQUE"].includes(codeOf(error));
  if (taken || error instanceof ConcurrencyError) return { is: "conflict" };
  return { is: "fault", message: error instanceof Error ? error.message : String(error) };
}
