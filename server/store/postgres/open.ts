import pg from "pg";
import { migratePostgres } from "../../../prisma/migrate-postgres.ts";
import { MigrationRefused } from "../../../prisma/migrations.ts";
import { StartRefused } from "../../start-refused.ts";
import { sayUpgrade } from "../before-upgrade.ts";
import { messageOf } from "./fault.ts";
import { type Place, settings } from "./link.ts";

/** The oldest supported version, as `server_version_num`. */
const OLDEST = 130_000;

/**
 * Migrates the database to this version, and checks the settings that durability needs.
 * @throws StartRefused says what is wrong with it and what to do
 */
export async function openPostgres(place: Place, now: number): Promise<void> {
  const client = new pg.Client(settings(place, "migration"));
  client.on("error", () => {});
  try {
    await client.connect();
    await assertDurable(client, nameOf(place));
    await migratePostgres(client, { now, before: (steps) => sayUpgradeOf(nameOf(place), steps) });
  } catch (error) {
    throw asRefusal(error, nameOf(place));
  } finally {
    await client.end().catch(() => {});
  }
}

/** Prints what an upgrade of PostgreSQL will do, and whose backup is the way back. */
function sayUpgradeOf(name: string, steps: readonly string[]): void {
  sayUpgrade(name, steps);
  console.error("chockside: PostgreSQL is not copied here: the way back is the pg_dump that you made before");
}

/** Settings to check: the name, the forbidden value, and its consequence. */
const NEEDED = [
  ["fsync", "off", "what is answered could be lost in a power cut: set fsync = on"],
  ["full_page_writes", "off", "a power cut could damage it: set full_page_writes = on"],
  ["synchronous_commit", "off", "commits are answered before they are kept: set synchronous_commit = on"],
  ["transaction_read_only", "on", "it cannot be written: use the primary, not a standby"],
] as const;

/** @throws StartRefused unless a commit is on disk before it is answered */
export async function assertDurable(client: pg.ClientBase, name: string): Promise<void> {
  const names = [...NEEDED.map(([setting]) => setting), "server_version_num", "server_encoding"];
  const { rows } = await client.query<{ name: string; value: string }>(
    `SELECT "name", current_setting("name") AS "value" FROM unnest($1::text[]) AS s("name")`,
    [names],
  );
  const values = new Map(rows.map((row) => [row.name, row.value]));
  for (const [setting, wrong, why] of NEEDED)
    if (values.get(setting) === wrong) throw new StartRefused(`${name}: ${setting} is ${wrong}, so ${why}`);
  if (Number(values.get("server_version_num")) < OLDEST)
    throw new StartRefused(`${name} is too old: Chockside needs PostgreSQL 13 or later`);
  if (values.get("server_encoding") !== "UTF8")
    throw new StartRefused(`${name} is not in UTF8: make a database with ENCODING 'UTF8'`);
}

/** Returns the database's name and host for messages, without the password. */
export function nameOf({ url }: Place): string {
  try {
    const { hostname, port, pathname } = new URL(url);
    return `the database${pathname.replace("/", " ")} on ${hostname || "this machine"}${port ? `:${port}` : ""}`;
  } catch {
    return "the database";
  }
}

/** Advice by SQLSTATE or system error code. */
const ADVICE: Readonly<Record<string, string>> = {
  ECONNREFUSED: "does not answer: start PostgreSQL, or correct DATABASE_URL",
  ENOTFOUND: "cannot be found: correct the host in DATABASE_URL",
  "28P01": "does not take this user and password: correct DATABASE_URL",
  "28000": "does not let this user in: correct DATABASE_URL, or pg_hba.conf",
  "3D000": "is not there: make it with createdb, owned by this user",
  "42501": "may not be changed by this user: make the user its owner",
  "53300": "has no connection left: raise max_connections",
};

/** Returns the error as a message for the operator, with advice where known. */
export function asRefusal(error: unknown, name: string): Error {
  if (error instanceof StartRefused) return error;
  if (error instanceof MigrationRefused) return new StartRefused(`${name}: ${error.message}`);
  const code = String((error as { code?: unknown }).code ?? "");
  const advice = ADVICE[code];
  return new StartRefused(
    advice ? `${name} ${advice} (${messageOf(error)})` : `${name} cannot be used: ${messageOf(error)}`,
  );
}
