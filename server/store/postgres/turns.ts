import pg from "pg";
import { type Place, settings } from "./link.ts";

/** Work that waits longer than this for its turn fails. Milliseconds. */
const WAIT_MS = 30_000;
/** Turns that may be held at once by this server. */
const AT_ONCE = 4;
/** Keeps these locks apart from any other advisory lock. */
const KIND = 4_380;

/** Lets one server at a time do work on a key, by PostgreSQL's advisory locks: they end with their connection. */
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
      // In one order everywhere, so that no two servers wait for each other.
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
