import Database from "better-sqlite3";
import { migrate } from "../../prisma/migrate.ts";
import { migrationsOf, readMigrations } from "../../prisma/migrations.ts";

/** Lists the triggers of a SQLite database. */
export const SQLITE_TRIGGERS = `SELECT "name", "tbl_name" AS "table", "sql" AS "made" FROM sqlite_master WHERE "type" = 'trigger'`;

/** Lists the enabled triggers of this program in PostgreSQL, each with the body of the function that it calls. */
export const POSTGRES_TRIGGERS = `SELECT t.tgname AS "name", c.relname AS "table", pg_get_triggerdef(t.oid, true) AS "made", p.prosrc AS "body"
  FROM pg_trigger t JOIN pg_proc p ON p.oid = t.tgfoid JOIN pg_class c ON c.oid = t.tgrelid
  WHERE NOT t.tgisinternal AND t.tgenabled IN ('O', 'A') AND pg_table_is_visible(c.oid)`;

/** A guard: a trigger that keeps rows of its table from being changed or removed. */
export interface Guard {
  name: string;
  table: string;
  /** The statement that makes it. */
  made: string;
  /** Body of the function that it calls, in PostgreSQL. */
  body?: string;
}

/** The table of aircraft types, whose guards are looked at before each plan. */
export const TYPES = "AircraftType";

let onSqlite: readonly Guard[] | null = null;
let onPostgres: readonly Guard[] | null = null;

/** Returns the guards that the migrations make in a SQLite database, made once in an empty one in memory. */
function wantedOnSqlite(): readonly Guard[] {
  if (onSqlite) return onSqlite;
  const db = new Database(":memory:");
  try {
    migrate(db);
    onSqlite = db.prepare<[], Guard>(SQLITE_TRIGGERS).all();
    return onSqlite;
  } finally {
    db.close();
  }
}

const STATEMENT = /^(?:CREATE TRIGGER "(\w+)"[^;]*? ON "(\w+)"[^;]*|DROP TRIGGER "(\w+)"[^;]*);/gm;
const BODY = /CREATE FUNCTION "chockside_refuse"\(\)[^$]*\$\$(.*?)\$\$/s;

/** Returns the guards that the migrations make in PostgreSQL, read from their statements. */
function wantedOnPostgres(): readonly Guard[] {
  if (onPostgres) return onPostgres;
  const sql = readMigrations(migrationsOf("postgresql"))
    .map((m) => m.sql)
    .join("\n");
  const body = BODY.exec(sql)?.[1] ?? "";
  const guards = new Map<string, Guard>();
  for (const [made, name, table, dropped] of sql.matchAll(STATEMENT)) {
    if (dropped) guards.delete(dropped);
    if (name && table) guards.set(name, { name, table, made, body });
  }
  onPostgres = [...guards.values()];
  return onPostgres;
}

/**
 * Returns the names of the guards that are missing in SQLite, or that are not word for word as they were made.
 * @param table looks at the guards of this table alone
 */
export function missingOnSqlite(there: readonly Guard[], table?: string): string[] {
  return missing(wantedOnSqlite(), there, table, (wanted, found) => wanted.made === found.made);
}

/** Returns the names of the guards that are missing in PostgreSQL, disabled, or not as they were made. */
export function missingOnPostgres(there: readonly Guard[], table?: string): string[] {
  return missing(
    wantedOnPostgres(),
    there,
    table,
    (wanted, found) =>
      (isRewritten(wanted.made) || plain(wanted.made) === plain(found.made)) &&
      wanted.body?.trim() === found.body?.trim(),
  );
}

function missing(
  wanted: readonly Guard[],
  there: readonly Guard[],
  table: string | undefined,
  same: (wanted: Guard, found: Guard) => boolean,
): string[] {
  const found = new Map(there.map((g) => [g.name, g]));
  return wanted
    .filter((w) => table === undefined || w.table === table)
    .filter((w) => {
      const is = found.get(w.name);
      return is === undefined || is.table !== w.table || !same(w, is);
    })
    .map((w) => w.name);
}

/**
 * Returns true for a statement that PostgreSQL does not print as it was written: it turns a comparison of whole rows
 * into another one. Such a guard is judged by its table and by its function alone.
 */
const isRewritten = (statement: string) => /IS NOT DISTINCT FROM/i.test(statement);

/** Returns a statement without what PostgreSQL writes in another way than the migration: case, quotes, brackets, casts. */
function plain(statement: string): string {
  return statement.toLowerCase().replace(/["()\s;]|::text|public\./g, "");
}
