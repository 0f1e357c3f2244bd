import { existsSync } from "node:fs";
import { type MachineClocks, machineClocks } from "../clock.ts";
import type { Config } from "../config.ts";
import { StartRefused } from "../start-refused.ts";
import type { Directory } from "./directory.ts";
import type { EventStore } from "./events.ts";
import { lockDatabase, openDatabase } from "./open.ts";
import { PrismaDirectory } from "./prisma-directory.ts";
import { SqliteEventStore } from "./sqlite-events.ts";
import { SqliteThread } from "./sqlite-thread.ts";

/** What a server, or a command beside it, works on. */
export interface Stores {
  store: EventStore;
  directory: Directory;
  /** Makes what was removed unreadable in the files too, as far as the database lets us. */
  compact(): Promise<void>;
  clocks: MachineClocks;
  /** Begins to serve among others on the same record; null where one server alone may have it. */
  enter: ((alone: () => Promise<void>) => Promise<void>) | null;
  close(): Promise<void>;
}

/**
 * Opens the database the settings name: a SQLite file for one server, PostgreSQL for any number of them.
 * @param ownThread that a file's evidence is written by a thread of its own, as a server needs that must hear meanwhile
 * @throws StartRefused saying what is wrong with it and what to do
 */
export async function openStores(
  { data, postgres }: Config,
  now: number,
  { ownThread = false } = {},
): Promise<Stores> {
  if (postgres !== null) {
    // Loaded only where it is used: a server on a file starts without it.
    const { openPostgresStores } = await import("./postgres/stores.ts");
    return openPostgresStores({ url: postgres }, now);
  }
  const lock = lockDatabase(data);
  const db = openDatabase(data, now);
  const store = new SqliteEventStore(db, ownThread ? new SqliteThread(data) : undefined);
  const directory = await PrismaDirectory.open(data);
  const close = async () => {
    await store.close();
    await directory.close();
    lock.close();
  };
  // The file is written anew without its free pages, and the log emptied.
  const compact = async () => {
    db.exec("VACUUM");
    db.pragma("wal_checkpoint(TRUNCATE)");
  };
  return { store, directory, compact, clocks: machineClocks, enter: null, close };
}

/**
 * The directory alone, of a database that a server has made: also beside a server that runs on the same file.
 * @throws StartRefused when there is none yet
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
