import pg from "pg";
import { type Applied, migrationsOf, pendingAfter, readMigrations } from "../../../prisma/migrations.ts";
import { SIGNED_BY, type SignedBy } from "../../doctor/checkpoints.ts";
import type { ExaminedTypes } from "../../doctor/types.ts";
import type { Chains } from "../chains.ts";
import { chainsOnPostgres } from "./chains.ts";
import { type Place, settings } from "./link.ts";
import { asRefusal, assertDurable, nameOf } from "./open.ts";
import { typesOnPostgres } from "./types.ts";

/** State of a PostgreSQL database, read without changing it. */
export interface ExaminedPostgres {
  /** Reason why a server cannot use it; null when it can. */
  unusable: string | null;
  /** True when a server has used it before. */
  made: boolean;
  /** Reason why this version must not open it; null when it may. */
  refused: string | null;
  /** Migrations to apply at the next start. */
  pending: string[];
  /** Privileges that a server needs and this user lacks. */
  lacking: string[];
  /** Server time of the newest event; 0 for none. */
  newestAt: number;
  /** Null when the events could not be checked. */
  chains: Chains | null;
  /** Null when they could not be looked at. */
  types: ExaminedTypes | null;
  /** The recorded checkpoints by key; null when they could not be looked at. */
  signedBy: SignedBy[] | null;
}

/** Time limit of statements, besides the time for checking events. Milliseconds. */
const GRACE_MS = 10_000;

/** Tables of the evidence and of the directory, with a privilege that a server needs on each. */
const NEEDED = [
  ["Event", "INSERT"],
  ["Session", "UPDATE"],
  ["SignIn", "UPDATE"],
] as const;

/**
 * Examines the database in a read-only transaction.
 * @param followMs time limit for checking events, milliseconds
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
    types: null,
    signedBy: null,
  };
  const client = new pg.Client({ ...settings(place, "doctor"), query_timeout: followMs + GRACE_MS });
  client.on("error", () => {});
  try {
    await client.connect();
    await assertDurable(client, nameOf(place));
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    await look(client, found);
    if (found.made && found.refused === null) found.chains = await chainsOnPostgres(client, followMs);
    if (found.made && found.refused === null && found.pending.length === 0) {
      found.signedBy = await signedBy(client);
      found.types = await typesOnPostgres(client);
    }
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

/** The driver gives BIGINT as text. */
async function signedBy(client: pg.Client): Promise<SignedBy[]> {
  const { rows } = await client.query<Record<keyof SignedBy, string>>(SIGNED_BY);
  return rows.map(({ publicKey, checkpoints, newest }) => ({
    publicKey,
    checkpoints: Number(checkpoints),
    newest: Number(newest),
  }));
}
