import { closeSync, openSync, rmSync } from "node:fs";
import Database from "better-sqlite3";
import {
  INDEX_FORM,
  type IndexEntry,
  type KeptStarts,
  type SearchIndex,
  type Term,
  type Wanted,
} from "./search-index.ts";

/** Ends the name of the index's file, which stands beside the database. */
const SUFFIX = ".search";
const BUSY_MS = 2_000;

const TABLES = `
CREATE TABLE "Head" ("session" TEXT PRIMARY KEY, "head" INTEGER NOT NULL) WITHOUT ROWID;
CREATE TABLE "Entry" (
  "id" INTEGER PRIMARY KEY, "at" INTEGER NOT NULL, "session" TEXT NOT NULL, "seq" INTEGER NOT NULL,
  "part" INTEGER NOT NULL, "aircraft" TEXT NOT NULL, "kind" TEXT NOT NULL, "tokens" TEXT NOT NULL, "body" TEXT NOT NULL
);
CREATE UNIQUE INDEX "Entry_place" ON "Entry" ("session", "seq", "part");
CREATE INDEX "Entry_order" ON "Entry" ("at", "session", "seq", "part");
CREATE INDEX "Entry_kind" ON "Entry" ("kind", "at");
CREATE INDEX "Entry_aircraft" ON "Entry" ("aircraft", "at");
CREATE VIRTUAL TABLE "Word" USING fts5(
  "tokens", content='', detail=none, prefix='2 3',
  tokenize="unicode61 remove_diacritics 0 tokenchars '_'"
);
INSERT INTO "Word"("Word", rank) VALUES ('secure-delete', 1);
CREATE TABLE "Starts" ("session" TEXT PRIMARY KEY, "headHash" TEXT NOT NULL, "body" TEXT NOT NULL);
PRAGMA user_version = ${INDEX_FORM};
`;

interface Row extends Omit<IndexEntry, "tokens"> {
  tokens: string;
}

/**
 * The search index in a file of its own (SQLite, FTS5), so that it never keeps the evidence waiting for its lock, is in
 * no backup, and can be deleted at any time.
 */
export class SqliteSearchIndex implements SearchIndex {
  readonly #db: Database.Database;

  /** @param data the database beside which the file stands */
  constructor(data: string) {
    const file = `${data}${SUFFIX}`;
    this.#db = usable(file) ?? fresh(file);
  }

  async heads(ids?: readonly string[]): Promise<Map<string, number>> {
    const only = ids ? `WHERE "session" IN (SELECT "value" FROM json_each(?))` : "";
    const rows = this.#db
      .prepare<string[], { session: string; head: number }>(`SELECT * FROM "Head" ${only}`)
      .all(...(ids ? [JSON.stringify(ids)] : []));
    return new Map(rows.map(({ session, head }) => [session, head]));
  }

  async put(session: string, from: number, head: number, entries: readonly IndexEntry[]): Promise<void> {
    const db = this.#db;
    const known = db.prepare(`SELECT "head" FROM "Head" WHERE "session" = ?`).pluck();
    const entry = db.prepare(
      `INSERT INTO "Entry" ("at", "session", "seq", "part", "aircraft", "kind", "tokens", "body")
       VALUES (@at, @session, @seq, @part, @aircraft, @kind, @tokens, @body)`,
    );
    const word = db.prepare(`INSERT INTO "Word" ("rowid", "tokens") VALUES (?, ?)`);
    const now = db.prepare(`INSERT OR REPLACE INTO "Head" VALUES (?, ?)`);
    db.transaction(() => {
      if ((known.get(session) ?? 0) !== from) return;
      for (const one of entries) {
        const tokens = one.tokens.join(" ");
        word.run(entry.run({ ...one, tokens }).lastInsertRowid, tokens);
      }
      now.run(session, head);
    }).immediate();
  }

  async forget(session: string): Promise<void> {
    const db = this.#db;
    db.transaction(() => {
      // With its tokens, so that these leave the file too.
      db.prepare(
        `INSERT INTO "Word" ("Word", "rowid", "tokens") SELECT 'delete', "id", "tokens" FROM "Entry" WHERE "session" = ?`,
      ).run(session);
      db.prepare(`DELETE FROM "Entry" WHERE "session" = ?`).run(session);
      db.prepare(`DELETE FROM "Head" WHERE "session" = ?`).run(session);
      db.prepare(`DELETE FROM "Starts" WHERE "session" = ?`).run(session);
    }).immediate();
    db.pragma("wal_checkpoint(TRUNCATE)");
  }

  async find({ terms, aircraft, kind, from, to, before, limit }: Wanted): Promise<IndexEntry[]> {
    const where: string[] = [];
    const values: (string | number)[] = [];
    const and = (sql: string, ...more: (string | number)[]) => {
      where.push(sql);
      values.push(...more);
    };
    if (terms.length > 0)
      and(`"id" IN (SELECT "rowid" FROM "Word" WHERE "Word" MATCH ?)`, terms.map(matching).join(" AND "));
    if (aircraft !== null) and(`"aircraft" = ?`, aircraft);
    if (kind !== null) and(`"kind" = ?`, kind);
    if (from !== null) and(`"at" >= ?`, from);
    if (to !== null) and(`"at" < ?`, to);
    if (before !== null)
      and(
        `("at", "session", "seq", "part") < (?, ?, ?, ?)`,
        ...[before.at, before.session, before.seq, before.part],
      );
    const rows = this.#db
      .prepare<unknown[], Row>(
        `SELECT "at", "session", "seq", "part", "aircraft", "kind", "tokens", "body" FROM "Entry"
         ${where.length > 0 ? `WHERE ${where.join(" AND ")}` : ""}
         ORDER BY "at" DESC, "session" DESC, "seq" DESC, "part" DESC LIMIT ?`,
      )
      .all(...values, limit);
    return rows.map((row) => ({ ...row, tokens: row.tokens === "" ? [] : row.tokens.split(" ") }));
  }

  async keepStarts({ session, headHash, body }: KeptStarts): Promise<void> {
    this.#db.prepare(`INSERT OR REPLACE INTO "Starts" VALUES (?, ?, ?)`).run(session, headHash, body);
  }

  async startsOf(sessions: readonly string[]): Promise<KeptStarts[]> {
    return this.#db
      .prepare<string[], KeptStarts>(
        `SELECT * FROM "Starts" WHERE "session" IN (SELECT "value" FROM json_each(?))`,
      )
      .all(JSON.stringify(sessions));
  }

  async startHeads(ids?: readonly string[]): Promise<Map<string, string>> {
    const only = ids ? `WHERE "session" IN (SELECT "value" FROM json_each(?))` : "";
    const rows = this.#db
      .prepare<string[], Omit<KeptStarts, "body">>(`SELECT "session", "headHash" FROM "Starts" ${only}`)
      .all(...(ids ? [JSON.stringify(ids)] : []));
    return new Map(rows.map(({ session, headHash }) => [session, headHash]));
  }

  async close(): Promise<void> {
    this.#db.close();
  }
}

/** Returns the term in FTS5's language. Tokens hold letters, digits and `_` only, so that nothing needs escaping. */
function matching({ prefix, or }: Term): string {
  return `(${[`"${prefix}"*`, ...or.map((token) => `"${token}"`)].join(" OR ")})`;
}

/** Opens an index of this version; null when there is none, or the file is damaged. */
function usable(file: string): Database.Database | null {
  let db: Database.Database | null = null;
  try {
    db = opened(file);
    if (db.pragma("user_version", { simple: true }) !== INDEX_FORM) throw new Error("another form");
    if (db.pragma("quick_check(1)", { simple: true }) !== "ok") throw new Error("damaged");
    return db;
  } catch {
    db?.close();
    return null;
  }
}

/** Throws away what is there, and returns an empty index. */
function fresh(file: string): Database.Database {
  for (const end of ["", "-wal", "-shm"]) rmSync(`${file}${end}`, { force: true });
  // For this user only: it holds what people wrote.
  closeSync(openSync(file, "a", 0o600));
  const db = opened(file);
  db.exec(TABLES);
  return db;
}

function opened(file: string): Database.Database {
  const db = new Database(file, { timeout: BUSY_MS, fileMustExist: true });
  db.pragma("journal_mode = WAL");
  db.pragma("synchronous = NORMAL");
  db.pragma("secure_delete = ON");
  return db;
}
