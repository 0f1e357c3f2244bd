import { existsSync } from "node:fs";
import { machineClocks } from "../clock.ts";
import type { Config } from "../config.ts";
import { StartRefused } from "../start-refused.ts";
import { lockDatabase, openDatabase } from "./open.ts";
import type { Stores } from "./opened.ts";
import { PrismaDirectory } from "./prisma-directory.ts";
import { SqliteEventStore } from "./sqlite-events.ts";
import { SqliteSearchIndex } from "./sqlite-search-index.ts";
import { SqliteThread } from "./sqlite-thread.ts";

/**
 * Opens the database of the settings: a SQLite file for one server, or PostgreSQL for any number.
 * @param ownThread writes the evidence in its own thread, so that the server stays responsive
 * @throws StartRefused says what is wrong with it and what to do
 */
export async function openStores(
  { data, postgres }: Config,
  now: number,
  { ownThread = false } = {},
): Promise<Stores> {
  if (postgres !== null) {
    // Loaded on demand, so that a server with a file starts without it.
    const { openPostgresStores } = await import("./postgres/stores.ts");
    return openPostgresStores({ url: postgres }, now);
  }
  const lock = lockDatabase(data);
  const db = openDatabase(data, now);
  const store = new SqliteEventStore(db, ownThread ? new SqliteThread(data) : undefined);
  // Through the writer of the evidence: the directory's own handle would wait in the main thread for its flush.
  const directory = await PrismaDirectory.open(data, (ids, at) => store.usedSignIns(ids, at));
  const close = async () => {
    await store.close();
    await directory.close();
    lock.close();
  };
  // Rewrites the file without its free pages, and empties the log.
  const compact = async () => {
    db.exec("VACUUM");
    db.pragma("wal_checkpoint(TRUNCATE)");
  };
  const openIndex = async () => new SqliteSearchIndex(data);
  return { store, directory, openIndex, compact, clocks: machineClocks, enter: null, shared: null, close };
}

/**
 * Opens only the directory of an existing database. A server may run on the same file.
 * @throws StartRefused when there is no database yet
 */
export async function openDirectory(
  config: Config,
  now: number,
): Promise<Pick<Stores, "directory" | "close">> {
  if (config.postgres !== null) return openStores(config, now);
  if (!existsSync(config.data))
    throw new StartRefused(`${config.data} is not there: start the server once, then ask again`);
  const directory = await PrismaDirectory.open(config.data);
  return { directory, close: () => directory.close() };
}
