import pg from "pg";
import { type Place, settings } from "./link.ts";

/** Work that waits longer for its turn fails. Milliseconds. */
const WAIT_MS = 30_000;
/** Turns this server may hold at once. */
const AT_ONCE = 4;
/** Separates these locks from other advisory locks. */
const KIND = 4_380;

/** Lets one server at a time work on a key, by PostgreSQL's advisory locks. They end with their connection. */
export class Turns {
  readonly #pool: pg.Pool;

  constructor(place: Place) {
    this.#pool = new pg.Pool({ ...settings(place, "turns"), max: AT_ONCE, lock_timeout: WAIT_MS });
    this.#pool.on("error", () => {});
  }

  async take<T>(keys: readonly string[], work: () => Promise<T>): Promise<T> {
    const client = await this.#pool.connect();
    let broken: Error | undefined;
    try {
      // Lock in the same order everywhere, so that servers cannot deadlock.
      for (const key of [...keys].sort())
        await client.query("SELECT pg_advisory_lock($1, hashtext($2))", [KIND, key]);
      return await work();
    } finally {
      await client.query("SELECT pg_advisory_unlock_all()").catch((error: Error) => {
        broken = error;
      });
      client.release(broken);
    }
  }

  close(): Promise<void> {
    return this.#pool.end();
  }
}
