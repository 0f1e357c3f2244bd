import { accessSync, constants, existsSync, statSync } from "node:fs";
import { dirname } from "node:path";
import Database from "better-sqlite3";
import { migrationsOf, pendingAfter, readMigrations } from "../../prisma/migrations.ts";
import { SIGNED_BY, type SignedBy } from "../doctor/checkpoints.ts";
import type { ExaminedTypes } from "../doctor/types.ts";
import type { Chains } from "./chains.ts";
import { chainsOnFile } from "./sqlite-chains.ts";
import { isDamage } from "./sqlite-damage.ts";
import { typesOnFile } from "./sqlite-types.ts";

/** State of a database file, read without changing it. */
export interface Examined {
  there: boolean;
  /** Reason why it cannot be written; null when it can. */
  notWritable: string | null;
  /** Reason why it cannot be read, although nothing shows that it is damaged; null when it can. */
  unreadable: string | null;
  /** Its damage; null when none was found. */
  damage: string | null;
  /** The database's files that other users of the machine can read or change. */
  openToOthers: string[];
  journal: string | null;
  /** Migrations to apply at the next start. */
  pending: string[];
  /** Reason why this version must not open it; null when it may. */
  refused: string | null;
  newestAt: number;
  /** Null when the events could not be checked. */
  chains: Chains | null;
  sqlite: string | null;
  /** Null when they could not be looked at. */
  types: ExaminedTypes | null;
  /** The recorded checkpoints by key; null when they could not be looked at. */
  signedBy: SignedBy[] | null;
  /** True when a server uses it now. */
  inUse: boolean;
}

/** @param late returns true when it is time to stop checking events */
export function examine(file: string, late: () => boolean = () => false): Examined {
  const found: Examined = {
    there: existsSync(file),
    notWritable: null,
    unreadable: null,
    damage: null,
    openToOthers: ["", "-wal", "-shm"].map((end) => `${file}${end}`).filter(isOpenToOthers),
    journal: null,
    pending: [],
    refused: null,
    newestAt: 0,
    chains: null,
    sqlite: null,
    types: null,
    signedBy: null,
    inUse: isLocked(`${file}.lock`),
  };
  try {
    accessSync(dirname(file), constants.W_OK);
    if (found.there) accessSync(file, constants.W_OK);
  } catch (error) {
    found.notWritable = (error as Error).message;
  }
  if (!found.there) return found;
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true, timeout: 2_000 });
    look(db, found, late);
  } catch (error) {
    if (isDamage(error)) found.damage ??= (error as Error).message;
    else found.unreadable = (error as Error).message;
  } finally {
    db?.close();
  }
  return found;
}

function look(db: Database.Database, found: Examined, late: () => boolean): void {
  found.sqlite = db.prepare("SELECT sqlite_version()").pluck().get() as string;
  found.journal = db.pragma("journal_mode", { simple: true }) as string;
  const check = db.pragma("quick_check(1)", { simple: true });
  if (check !== "ok") found.damage = String(check);
  try {
    const applied = db
      .prepare(
        `SELECT "migration_name" AS "name", "checksum", "finished_at" AS "finished" FROM "_prisma_migrations"
         WHERE "rolled_back_at" IS NULL ORDER BY "migration_name"`,
      )
      .all() as Parameters<typeof pendingAfter>[0];
    found.pending = pendingAfter(applied, readMigrations(migrationsOf("sqlite"))).map(({ name }) => name);
  } catch (error) {
    found.refused = (error as Error).message;
    return;
  }
  const newest = db.prepare(`SELECT max("headAt") FROM "Session"`).pluck().get();
  found.newestAt = (newest as number | null) ?? 0;
  found.chains = chainsOnFile(db, late);
  // Before the pending migrations are applied there are no seals to look at.
  if (found.pending.length > 0) return;
  found.types = typesOnFile(db);
  found.signedBy = db.prepare<[], SignedBy>(SIGNED_BY).all();
}

/** Returns true when the file is there and its mode lets others in. */
function isOpenToOthers(file: string): boolean {
  // Windows has no such permission bits.
  if (process.platform === "win32") return false;
  const stat = statSync(file, { throwIfNoEntry: false });
  return stat !== undefined && (stat.mode & 0o077) !== 0;
}

function isLocked(lock: string): boolean {
  if (!existsSync(lock)) return false;
  try {
    const db = new Database(lock, { timeout: 0 });
    try {
      db.exec("BEGIN EXCLUSIVE; ROLLBACK");
      return false;
    } finally {
      db.close();
    }
  } catch {
    return true;
  }
}
