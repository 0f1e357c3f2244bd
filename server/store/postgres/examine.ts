import pg from "pg";
import { type Applied, migrationsOf, pendingAfter, readMigrations } from "../../../prisma/migrations.ts";
import type { Chains } from "../chains.ts";
import { chainsOnPostgres } from "./chains.ts";
import { type Place, settings } from "./link.ts";
import { asRefusal, assertDurable, nameOf } from "./open.ts";

/** What a PostgreSQL database is like, found without changing anything in it. */
export interface ExaminedPostgres {
  /** Why a server cannot stand on it, null when it can. */
  unusable: string | null;
  /** Whether a server ever stood on it. */
  made: boolean;
  /** Why this version must not open it, null when it may. */
  refused: string | null;
  /** Migrations still to come at the next start. */
  pending: string[];
  /** What this user may not do that a server does. */
  lacking: string[];
  /** Server time of the newest event, 0 for none. */
  newestAt: number;
  /** Null where the records could not be looked at. */
  chains: Chains | null;
}

/** How long a statement may take that has to do with more than following records. Milliseconds. */
const GRACE_MS = 10_000;

/** Tables of the record and of the directory, and what a server does in each. */
const NEEDED = [
  ["Event", "INSERT"],
  ["Session", "UPDATE"],
  ["SignIn", "UPDATE"],
] as const;

/**
 * Looks at the database in a transaction that PostgreSQL itself keeps from writing.
 * @param followMs how long records are followed at most, milliseconds
 */
export async function examinePostgres(place: Place, followMs = 60_000): Promise<ExaminedPostgres> {
  const found: ExaminedPostgres = {
    unusable: null,
    made: false,
    refused: null,
    pending: [],
    lacking: [],
    newestAt: 0,
    chains: null,
  };
  const client = new pg.Client({ ...settings(place, "doctor"), query_timeout: followMs + GRACE_MS });
  client.on("error", () => {});
  try {
    await client.connect();
    await assertDurable(client, nameOf(place));
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    await look(client, found);
    if (found.made && found.refused === null) found.chains = await chainsOnPostgres(client, followMs);
    await client.query("ROLLBACK");
  } catch (error) {
    found.unusable = asRefusal(error, nameOf(place)).message;
  } finally {
    await client.end().catch(() => {});
  }
  return found;
}

async function look(client: pg.Client, found: ExaminedPostgres): Promise<void> {
  const one = async <T>(text: string, values: unknown[] = []): Promise<T | undefined> =>
    (await client.query(text, values)).rows[0]?.value;
  const mayMake = await one<boolean>(`SELECT has_schema_privilege(current_schema(), 'CREATE') AS "value"`);
  found.made = (await one(`SELECT to_regclass('"_prisma_migrations"') AS "value"`)) !== null;
  const migrations = readMigrations(migrationsOf("postgresql"));
  try {
    found.pending = pendingAfter(found.made ? await applied(client) : [], migrations).map((m) => m.name);
  } catch (error) {
    found.refused = (error as Error).message;
    return;
  }
  if (found.pending.length > 0 && mayMake !== true) found.lacking.push("CREATE in its schema");
  if (!found.made) return;
  for (const [table, privilege] of NEEDED)
    if (!(await one(`SELECT has_table_privilege($1, $2) AS "value"`, [`"${table}"`, privilege])))
      found.lacking.push(`${privilege} on "${table}"`);
  found.newestAt = Number((await one(`SELECT max("headAt") AS "value" FROM "Session"`)) ?? 0);
}

async function applied(client: pg.Client): Promise<Applied[]> {
  const { rows } = await client.query<Applied>(
    `SELECT "migration_name" AS "name", "checksum", "finished_at" AS "finished" FROM "_prisma_migrations"
     WHERE "rolled_back_at" IS NULL ORDER BY "migration_name" COLLATE "C"`,
  );
  return rows;
}
