import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Database from "better-sqlite3";

/** Where the project's own migrations lie, one folder each: `0001_init/migration.sql`. */
export const MIGRATIONS = fileURLToPath(new URL("./migrations", import.meta.url));

/** Why a database was refused. Nothing has been changed in it. */
export type MigrationFault = "changed" | "unknown" | "out-of-order" | "unfinished" | "broken-reference";

/** A database that this version must not touch; `migration` names the step it failed on. */
export class MigrationRefused extends Error {
  override readonly name = "MigrationRefused";
  readonly fault: MigrationFault;
  readonly migration: string;

  constructor(fault: MigrationFault, migration: string, message: string) {
    super(message);
    this.fault = fault;
    this.migration = migration;
  }
}

export interface MigrateOptions {
  /** Folder of migrations; the project's own unless given. */
  folder?: string;
  /** Time written beside each applied migration, ms since 1970-01-01T00:00Z. */
  now?: number;
}

interface Migration {
  name: string;
  sql: string;
  /** SHA-256 of the file, lower-case hex: Prisma's own checksum. */
  checksum: string;
}

/** The table `prisma migrate deploy` keeps, so that either tool can carry on from the other. */
const LEDGER = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  "id" TEXT PRIMARY KEY NOT NULL,
  "checksum" TEXT NOT NULL,
  "finished_at" DATETIME,
  "migration_name" TEXT NOT NULL,
  "logs" TEXT,
  "rolled_back_at" DATETIME,
  "started_at" DATETIME NOT NULL DEFAULT current_timestamp,
  "applied_steps_count" INTEGER UNSIGNED NOT NULL DEFAULT 0
)`;

/**
 * Brings a SQLite database to this version's shape and returns the names of the migrations applied now, in
 * order. All of them go in one transaction, so a failure leaves the database as it was.
 *
 * @param target an open handle (left open, outside any transaction), or the path of a file (closed again)
 * @throws MigrationRefused when what was applied earlier is not a leading part of what this version holds
 */
export function migrate(target: Database.Database | string, options: MigrateOptions = {}): string[] {
  if (typeof target !== "string") return bringUp(target, options);
  const db = new Database(target);
  try {
    return bringUp(db, options);
  } finally {
    db.close();
  }
}

function bringUp(db: Database.Database, { folder = MIGRATIONS, now = Date.now() }: MigrateOptions): string[] {
  const migrations = read(folder);
  // A script that rebuilds a table drops the old one, which enforced references would refuse; they cannot be
  // switched inside a transaction, so they are off for its length and checked before it commits.
  const enforced = db.pragma("foreign_keys", { simple: true });
  db.pragma("foreign_keys = OFF");
  try {
    return db
      .transaction(() => {
        db.exec(LEDGER);
        const pending = migrations.slice(countApplied(db, migrations));
        const record = db.prepare(
          `INSERT INTO "_prisma_migrations"
             ("id", "checksum", "finished_at", "migration_name", "started_at", "applied_steps_count")
           VALUES (?, ?, ?, ?, ?, 1)`,
        );
        for (const { name, sql, checksum } of pending) {
          db.exec(sql);
          if ((db.pragma("foreign_key_check") as unknown[]).length > 0)
            throw new MigrationRefused(
              "broken-reference",
              name,
              `migration ${name} leaves broken references`,
            );
          record.run(name, checksum, now, name, now);
        }
        return pending.map(({ name }) => name);
      })
      .immediate();
  } finally {
    db.pragma(`foreign_keys = ${enforced ? "ON" : "OFF"}`);
  }
}

/** Number of leading migrations the database already has. */
function countApplied(db: Database.Database, migrations: Migration[]): number {
  const rows = db
    .prepare(
      `SELECT "migration_name" AS "name", "checksum", "finished_at" AS "finished" FROM "_prisma_migrations"
       WHERE "rolled_back_at" IS NULL ORDER BY "migration_name"`,
    )
    .all() as { name: string; checksum: string; finished: unknown }[];
  rows.forEach(({ name, checksum, finished }, n) => {
    const known = migrations.find((migration) => migration.name === name);
    const refuse = (fault: MigrationFault, why: string) => new MigrationRefused(fault, name, why);
    if (!known)
      throw refuse(
        "unknown",
        `the database has migration ${name}, which this version does not know: run a newer one`,
      );
    if (finished === null)
      throw refuse("unfinished", `migration ${name} began in this database and never finished`);
    if (known.checksum !== checksum)
      throw refuse(
        "changed",
        `migration ${name} was changed after it was applied: restore the file and add a new one`,
      );
    if (migrations[n] !== known)
      throw refuse(
        "out-of-order",
        `migration ${name} was applied before ${migrations[n]?.name}, which comes first`,
      );
  });
  return rows.length;
}

function read(folder: string): Migration[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => {
      const sql = readFileSync(join(folder, name, "migration.sql"), "utf8");
      return { name, sql, checksum: createHash("sha256").update(sql).digest("hex") };
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
