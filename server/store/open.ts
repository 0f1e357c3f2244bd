import { closeSync, mkdirSync, openSync } from "node:fs";
import { dirname } from "node:path";
import Database from "better-sqlite3";
import { migrate } from "../../prisma/migrate.ts";
import { MigrationRefused } from "../../prisma/migrations.ts";
import { StartRefused } from "../start-refused.ts";
import { keepBefore } from "./before-upgrade.ts";

/** Longest wait of a write for another process, such as a backup. Milliseconds. */
const BUSY_MS = 2_000;

/**
 * Opens the database file, creates it if missing, and migrates it to this version, after a copy of
 * what an earlier version made. Ensures the two settings that
 * durability needs: a write-ahead log, flushed at every commit.
 * @throws StartRefused says what is wrong with the file and what to do
 */
export function openDatabase(file: string, now: number): Database.Database {
  let db: Database.Database | null = null;
  try {
    // For this user only: it contains PIN hashes. SQLite's log and index files take the same mode.
    if (file !== ":memory:") closeSync(openSync(file, "a", 0o600));
    db = openHandle(file);
    migrate(db, { now, before: (steps) => keepBefore(file, steps) });
    return db;
  } catch (error) {
    db?.close();
    throw asRefusal(error, file);
  }
}

/**
 * Returns a handle with the settings that every writer needs.
 * @throws StartRefused when they cannot be set
 */
export function openHandle(file: string): Database.Database {
  const db = new Database(file, { timeout: BUSY_MS, fileMustExist: true });
  db.pragma("journal_mode = WAL");
  db.pragma("synchronous = FULL");
  db.pragma("foreign_keys = ON");
  db.pragma("recursive_triggers = ON");
  try {
    assertDurable(db, file);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** @throws StartRefused unless the journal is a write-ahead log that is flushed before a commit returns (2 = FULL) */
export function assertDurable(db: Database.Database, file: string): void {
  const journal = db.pragma("journal_mode", { simple: true });
  if (journal !== "wal")
    throw new StartRefused(
      `${file} cannot keep a write-ahead log (journal_mode is ${journal}): put it on a local disk, not a network share`,
    );
  const synchronous = db.pragma("synchronous", { simple: true });
  if (synchronous !== 2)
    throw new StartRefused(`${file} would not be flushed at every commit (synchronous is ${synchronous})`);
}

/**
 * Holds a lock beside the database until the process ends, so that no second server writes to it. The system releases
 * the lock however the process ends.
 * @throws StartRefused when another server holds it
 */
export function lockDatabase(file: string): Database.Database {
  let lock: Database.Database;
  try {
    mkdirSync(dirname(file), { recursive: true });
    lock = new Database(`${file}.lock`, { timeout: 0 });
  } catch (error) {
    throw asRefusal(error, file);
  }
  try {
    lock.exec("BEGIN EXCLUSIVE");
    return lock;
  } catch {
    lock.close();
    throw new StartRefused(
      `${file} is in use by another Chockside server: stop that one, or set CHOCKSIDE_DATA to another file`,
    );
  }
}

const ADVICE: Readonly<Record<string, string>> = {
  SQLITE_NOTADB: "is not a database: move it away, or restore a backup",
  SQLITE_CORRUPT: "is damaged: restore a backup",
  SQLITE_READONLY: "cannot be written: check its owner and permissions",
  SQLITE_CANTOPEN: "cannot be opened: check that its folder exists and can be written",
  SQLITE_FULL: "cannot grow: the disk is full",
  SQLITE_BUSY: "is locked by another program: close that one",
};

function asRefusal(error: unknown, file: string): Error {
  if (error instanceof StartRefused) return error;
  if (error instanceof MigrationRefused) return new StartRefused(`${file}: ${error.message}`);
  const { code = "", message = "" } = error as { code?: string; message?: string };
  const known = Object.keys(ADVICE).find((c) => code.startsWith(c));
  if (known) return new StartRefused(`${file} ${ADVICE[known]} (${message})`);
  if (code.startsWith("SQLITE") || code.startsWith("E"))
    return new StartRefused(`${file} cannot be used as the database: ${message}`);
  return error instanceof Error ? error : new Error(String(error));
}
