import Database from "better-sqlite3";
import {
  type Applied,
  appliedBy,
  type MigrateOptions,
  MigrationRefused,
  migrationsOf,
  pendingAfter,
  readMigrations,
} from "./migrations.ts";

/** The table that `prisma migrate deploy` keeps, so that either tool can continue after the other. */
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
 * Migrates a SQLite database to this version. Returns the names of the migrations applied, in order. All run in one
 * transaction, so a failure leaves the database unchanged.
 *
 * @param target an open handle (left open, outside any transaction), or the path of a file (closed afterwards)
 * @throws MigrationRefused when the applied migrations are not the first ones of this version
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

function bringUp(db: Database.Database, options: MigrateOptions): string[] {
  const { folder = migrationsOf("sqlite"), now = Date.now(), before } = options;
  const migrations = readMigrations(folder);
  // A migration that rebuilds a table drops the old one, which foreign keys would prevent. They cannot be switched
  // inside a transaction, so they are off around it and checked before the commit.
  const enforced = db.pragma("foreign_keys", { simple: true });
  db.pragma("foreign_keys = OFF");
  try {
    return db
      .transaction(() => {
        db.exec(LEDGER);
        const there = applied(db);
        const pending = pendingAfter(there, migrations);
        if (there.length > 0 && pending.length > 0) before?.(pending.map(({ name }) => name));
        const record = db.prepare(
          `INSERT INTO "_prisma_migrations"
             ("id", "checksum", "finished_at", "migration_name", "started_at", "applied_steps_count", "logs")
           VALUES (?, ?, ?, ?, ?, 1, ?)`,
        );
        for (const { name, sql, checksum } of pending) {
          db.exec(sql);
          if ((db.pragma("foreign_key_check") as unknown[]).length > 0)
            throw new MigrationRefused(
              "broken-reference",
              name,
              `migration ${name} leaves broken references`,
            );
          record.run(name, checksum, now, name, now, appliedBy());
        }
        return pending.map(({ name }) => name);
      })
      .immediate();
  } finally {
    db.pragma(`foreign_keys = ${enforced ? "ON" : "OFF"}`);
  }
}

function applied(db: Database.Database): Applied[] {
  return db
    .prepare(
      `SELECT "migration_name" AS "name", "checksum", "finished_at" AS "finished", "logs" FROM "_prisma_migrations"
       WHERE "rolled_back_at" IS NULL ORDER BY "migration_name"`,
    )
    .all() as Applied[];
}
