import Database from "better-sqlite3";
import { migrate } from "../../prisma/migrate.ts";

/** The guards of approved versions in PostgreSQL, by name. */
const POSTGRES_GUARDS = [
  "AircraftType_approved_no_update",
  "AircraftType_approved_no_delete",
  "AircraftType_no_truncate",
] as const;

/** Lists the triggers of the table of types in a SQLite database. */
export const SQLITE_TRIGGERS = `SELECT "name", "sql" AS "made" FROM sqlite_master WHERE "type" = 'trigger' AND "tbl_name" = 'AircraftType'`;

/** Lists those in PostgreSQL that are enabled and call this program's function. */
export const POSTGRES_TRIGGERS = `SELECT t.tgname AS "name", pg_get_triggerdef(t.oid) AS "made" FROM pg_trigger t JOIN pg_proc p ON p.oid = t.tgfoid WHERE t.tgrelid = '"AircraftType"'::regclass AND t.tgenabled IN ('O', 'A') AND p.proname = 'chockside_refuse'`;

export interface Trigger {
  name: string;
  made: string;
}

let wanted: readonly Trigger[] | null = null;

/** Returns the triggers that the migrations make in a SQLite database, made once in an empty one in memory. */
function wantedOnSqlite(): readonly Trigger[] {
  if (wanted) return wanted;
  const db = new Database(":memory:");
  try {
    migrate(db);
    wanted = db.prepare<[], Trigger>(SQLITE_TRIGGERS).all();
    return wanted;
  } finally {
    db.close();
  }
}

/** Returns the names of the guards that are missing in SQLite, or that are not word for word as they were made. */
export function missingOnSqlite(there: readonly Trigger[]): string[] {
  const made = new Map(there.map((t) => [t.name, t.made]));
  return wantedOnSqlite()
    .filter((t) => made.get(t.name) !== t.made)
    .map((t) => t.name);
}

/** Returns the names of the guards that are missing in PostgreSQL, or disabled. */
export function missingOnPostgres(there: readonly Trigger[]): string[] {
  return POSTGRES_GUARDS.filter((name) => !there.some((t) => t.name === name));
}
