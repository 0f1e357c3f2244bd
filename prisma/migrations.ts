import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Provider } from "./providers.mjs";

/** Returns the folder of a provider's migrations. Each has a folder of its own: `0001_init/migration.sql`. */
export function migrationsOf(provider: Provider): string {
  return fileURLToPath(new URL(`./migrations/${provider}`, import.meta.url));
}

/** Reason to refuse a database. Nothing in it was changed. */
export type MigrationFault = "changed" | "unknown" | "out-of-order" | "unfinished" | "broken-reference";

/** A database that this version must not change. `migration` names the step that failed. */
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
  /** Folder of migrations; by default the project's own. */
  folder?: string;
  /** Time recorded for each applied migration, ms since 1970-01-01T00:00Z. */
  now?: number;
  /**
   * Runs before the first change to a database that an earlier version made, with the names of what comes. Nothing is
   * changed when it throws.
   */
  before?: (pending: readonly string[]) => void;
}

interface Migration {
  name: string;
  sql: string;
  /** SHA-256 of the file, lower-case hex: Prisma's own checksum. */
  checksum: string;
}

/** A row of `_prisma_migrations` that was not rolled back. */
export interface Applied {
  name: string;
  checksum: string;
  finished: unknown;
  /** The version of the program that applied it, in words; null for one from before this was kept. */
  logs: string | null;
}

/** Returns what is kept with each migration that this program applies. */
export function appliedBy(): string {
  const file = new URL("../package.json", import.meta.url);
  const { version } = JSON.parse(readFileSync(file, "utf8")) as { version: string };
  return `${PROGRAM}${version}`;
}

const PROGRAM = "applied by chockside ";

/** Returns all migrations in a folder, ordered by name. */
export function readMigrations(folder: string): Migration[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => {
      const sql = readFileSync(join(folder, name, "migration.sql"), "utf8");
      return { name, sql, checksum: createHash("sha256").update(sql).digest("hex") };
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/**
 * Returns the migrations still to apply after `applied`, ordered by name.
 * @throws MigrationRefused when the applied migrations are not the first ones of this version
 */
export function pendingAfter(applied: readonly Applied[], migrations: readonly Migration[]): Migration[] {
  applied.forEach(({ name, checksum, finished, logs }, n) => {
    const known = migrations.find((migration) => migration.name === name);
    const refuse = (fault: MigrationFault, why: string) => new MigrationRefused(fault, name, why);
    if (!known)
      throw refuse(
        "unknown",
        `the database has migration ${name}, which this version does not know: run ${
          logs?.startsWith(PROGRAM) ? `version ${logs.slice(PROGRAM.length)} or later` : "a newer one"
        }`,
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
  return migrations.slice(applied.length);
}
