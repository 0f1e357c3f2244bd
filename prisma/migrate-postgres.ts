import type { ClientBase } from "pg";
import {
  type Applied,
  appliedBy,
  type MigrateOptions,
  migrationsOf,
  pendingAfter,
  readMigrations,
} from "./migrations.ts";

/** The table that `prisma migrate deploy` keeps, so that either tool can continue after the other. */
const LEDGER = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  "id" VARCHAR(36) PRIMARY KEY NOT NULL,
  "checksum" VARCHAR(64) NOT NULL,
  "finished_at" TIMESTAMPTZ,
  "migration_name" VARCHAR(255) NOT NULL,
  "logs" TEXT,
  "rolled_back_at" TIMESTAMPTZ,
  "started_at" TIMESTAMPTZ NOT NULL DEFAULT now(),
  "applied_steps_count" INTEGER NOT NULL DEFAULT 0
)`;

/** An arbitrary advisory lock number: of two servers that start together, one migrates and the other waits. */
const LOCK = 4_380_001;

/**
 * Migrates a PostgreSQL database to this version. Returns the names of the migrations applied, in order. All run in
 * one transaction, so a failure leaves the database unchanged.
 *
 * @param db a connection outside any transaction
 * @throws MigrationRefused when the applied migrations are not the first ones of this version
 */
export async function migratePostgres(db: ClientBase, options: MigrateOptions = {}): Promise<string[]> {
  const { folder = migrationsOf("postgresql"), now = Date.now(), before } = options;
  const migrations = readMigrations(folder);
  await db.query("BEGIN");
  try {
    await db.query("SELECT pg_advisory_xact_lock($1)", [LOCK]);
    await db.query(LEDGER);
    const { rows } = await db.query<Applied>(
      `SELECT "migration_name" AS "name", "checksum", "finished_at" AS "finished", "logs" FROM "_prisma_migrations"
       WHERE "rolled_back_at" IS NULL ORDER BY "migration_name" COLLATE "C"`,
    );
    const pending = pendingAfter(rows, migrations);
    if (rows.length > 0 && pending.length > 0) before?.(pending.map(({ name }) => name));
    for (const { name, sql, checksum } of pending) {
      await db.query(sql);
      await db.query(
        `INSERT INTO "_prisma_migrations"
           ("id", "checksum", "finished_at", "migration_name", "started_at", "applied_steps_count", "logs")
         VALUES (gen_random_uuid(), $1, to_timestamp($2::float8 / 1000), $3, to_timestamp($2::float8 / 1000), 1, $4)`,
        [checksum, now, name, appliedBy()],
      );
    }
    await db.query("COMMIT");
    return pending.map(({ name }) => name);
  } catch (error) {
    // Report the first error, whatever the state of the connection.
    await db.query("ROLLBACK").catch(() => {});
    throw error;
  }
}
