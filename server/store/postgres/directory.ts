import { PrismaPg } from "@prisma/adapter-pg";
import { PrismaClient } from "../../../prisma/generated/postgresql/client.ts";
import { type Guard, missingOnPostgres, POSTGRES_TRIGGERS, TYPES } from "../guards.ts";
import { type Client, PrismaDirectory } from "../prisma-directory.ts";
import { type Place, settings } from "./link.ts";
import { Turns } from "./turns.ts";

const CONNECTIONS = 4;

/** @param place a database that `openPostgres` has migrated */
export function postgresDirectory(place: Place): PrismaDirectory {
  const pool = { ...settings(place, "directory"), max: CONNECTIONS, query_timeout: 5_000 };
  const adapter = new PrismaPg(pool, { onPoolError() {}, onConnectionError() {} });
  const turns = new Turns(place);
  // Both clients come from one model. Their types differ, but not in anything used here.
  const client = new PrismaClient({ adapter }) as unknown as Client;
  return new PrismaDirectory(client, turns, async (db) =>
    missingOnPostgres(await db.$queryRawUnsafe<Guard[]>(POSTGRES_TRIGGERS), TYPES),
  );
}
