import { setImmediate } from "node:timers/promises";
import { type EventStore, type StoredEvent, StoreFailure } from "../store/events.ts";

/** Events per page. The event loop gets a turn after each, because hashing a page takes milliseconds. */
const PAGE = 200;

/**
 * Yields the session's first `size` events, in order.
 * @throws StoreFailure when some are missing
 */
export async function* firstOf(
  store: EventStore,
  session: string,
  size: number,
): AsyncGenerator<StoredEvent> {
  for (let since = 0; since < size; ) {
    const page = await store.read(session, since, Math.min(PAGE, size - since));
    const last = page.at(-1);
    if (!last) throw new StoreFailure(`session ${session} has no event ${since + 1}`);
    yield* page;
    since = last.seq;
    await setImmediate();
  }
}

/** Returns the exact bytes of the first `size` events: the leaves of the session's Merkle tree. */
export async function leavesOf(store: EventStore, session: string, size: number): Promise<string[]> {
  const leaves: string[] = [];
  for await (const { body } of firstOf(store, session, size)) leaves.push(body);
  return leaves;
}
