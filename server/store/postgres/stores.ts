import type { Stores } from "../opened.ts";
import { DatabaseClock } from "./clock.ts";
import { postgresDirectory } from "./directory.ts";
import { PostgresEventStore } from "./events.ts";
import type { Place } from "./link.ts";
import { openPostgres } from "./open.ts";
import { PostgresSearchIndex } from "./search-index.ts";
import { ServerPresence } from "./server-presence.ts";

export async function openPostgresStores(place: Place, now: number): Promise<Stores> {
  await openPostgres(place, now);
  const clocks = await DatabaseClock.start(place);
  const presence = new ServerPresence(place);
  const store = new PostgresEventStore(place);
  const directory = postgresDirectory(place);
  const close = async () => {
    await store.close();
    await directory.close();
    await presence.leave();
    await clocks.close();
  };
  // Autovacuum reuses the space in time.
  const compact = async () => {};
  const openIndex = () => PostgresSearchIndex.open(place);
  return { store, directory, openIndex, compact, clocks, enter: (alone) => presence.enter(alone), close };
}
