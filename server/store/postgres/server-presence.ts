import { setTimeout as pause } from "node:timers/promises";
import { faultOf } from "./fault.ts";
import { type Place, PostgresLink } from "./link.ts";

/** An arbitrary advisory lock number. Every running server holds this lock in shared mode. */
const LOCK = 4_380_002;
const ANSWER_MS = 5_000;
const AGAIN_MS = 1_000;
/** Interval between checks that the lock is still held. Milliseconds. */
const LOOK_MS = 1_000;

/**
 * Finds out whether any server has been watching the sessions. Each running server holds a shared lock in the
 * database, which ends with its connection. A server that finds the lock free is the first after a time without
 * servers: it holds the lock exclusively until it has recorded that.
 */
export class ServerPresence {
  readonly #link: PostgresLink;
  #left = false;

  constructor(place: Place) {
    this.#link = new PostgresLink(place, "presence");
  }

  /**
   * Begins to serve. Runs `alone` first when no other server is running.
   * @throws the driver's error
   */
  async enter(alone: () => Promise<void>): Promise<void> {
    for (;;) {
      if (await this.#is("SELECT pg_try_advisory_lock($1) AS yes")) {
        await alone();
        await this.#is("SELECT pg_advisory_lock_shared($1) IS NOT NULL AS yes");
        await this.#is("SELECT pg_advisory_unlock($1) AS yes");
        break;
      }
      if (await this.#is("SELECT pg_try_advisory_lock_shared($1) AS yes")) {
        // The server that held the first lock may be gone by now.
        if (await this.#is(OTHERS)) break;
        await this.#is("SELECT pg_advisory_unlock_shared($1) AS yes");
      }
      await pause(50);
    }
    void this.#stay();
  }

  leave(): Promise<void> {
    this.#left = true;
    return this.#link.close();
  }

  /**
   * Takes the lock again after the connection broke. Until then, a starting server assumes that no other is running
   * and voids clearances, which is safe.
   */
  async #stay(): Promise<void> {
    while (!this.#left) {
      await pause(LOOK_MS, undefined, { ref: false });
      if (this.#left) return;
      try {
        if (!(await this.#is(HELD))) await this.#is("SELECT pg_try_advisory_lock_shared($1) AS yes");
      } catch (error) {
        if (faultOf(error) !== "lost") throw error;
        await pause(AGAIN_MS, undefined, { ref: false });
      }
    }
  }

  async #is(text: string): Promise<boolean> {
    const { rows } = await this.#link.query<{ yes: boolean }>({ text, values: [LOCK] }, ANSWER_MS);
    return rows[0]?.yes === true;
  }
}

const LOCKS = `FROM pg_locks WHERE "locktype" = 'advisory' AND "classid" = 0 AND "objid" = $1 AND "granted"
  AND "database" = (SELECT "oid" FROM pg_database WHERE "datname" = current_database())`;
const HELD = `SELECT count(*) > 0 AS yes ${LOCKS} AND "pid" = pg_backend_pid()`;
const OTHERS = `SELECT count(*) > 0 AS yes ${LOCKS} AND "pid" <> pg_backend_pid()`;
