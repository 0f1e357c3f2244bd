import type { Stores } from "../stores.ts";
import { postgresDirectory } from "./directory.ts";
import { PostgresEventStore } from "./events.ts";
import type { Place } from "./link.ts";
import { openPostgres } from "./open.ts";

export async function openPostgresStores(place: Place, now: number): Promise<Stores> {
  await openPostgres(place, now);
  const store = new PostgresEventStore(place);
  const directory = postgresDirectory(place);
  const close = async () => {
    await store.close();
    await directory.close();
  };
  // Its own housekeeping reuses the room in time.
  const compact = async () => {};
  return { store, directory, compact, close };
}
