import type { Timers } from "../../clock.ts";
import type { Duty, Job } from "../../many/duty.ts";
import { type Place, PostgresLink } from "./link.ts";

/** Separates these locks from other advisory locks. */
const KIND = 4_381;
const ANSWER_MS = 2_000;
/** Interval between two looks at whose turn it is. Milliseconds. */
const LOOK_MS = 1_000;

interface DutyDeps {
  timers: Timers;
  log: { error(detail: object, message: string): void; info(detail: object, message: string): void };
}

/**
 * Lets one server at a time do a piece of work, by an advisory lock that ends with its connection. A server that lost its
 * connection stops the work before it asks again.
 */
export class PostgresDuty implements Duty {
  readonly #place: Place;
  readonly #deps: DutyDeps;

  constructor(place: Place, deps: DutyDeps) {
    this.#place = place;
    this.#deps = deps;
  }

  share(name: string, begin: () => Promise<Job>): () => Promise<void> {
    const link = new PostgresLink(this.#place, `duty ${name}`);
    const { timers, log } = this.#deps;
    let job: Job | null = null;
    let closed = false;
    let looking: Promise<void> = Promise.resolve();
    let stop = timers.after(0, look);

    function look(): void {
      looking = lookOnce()
        .catch((error) => log.error({ err: error, duty: name }, "whose turn it is could not be found out"))
        .then(() => {
          if (!closed) stop = timers.after(LOOK_MS, look);
        });
    }

    async function lookOnce(): Promise<void> {
      const mine = await isMine().catch(async (error) => {
        await end();
        throw error;
      });
      if (mine && !job && !closed) {
        log.info({ duty: name }, "this server has the turn");
        job = await begin();
      }
      if (!mine) await end();
    }

    /** A held lock is asked for in one statement with its taking, so that a new connection is never taken for the old one. */
    async function isMine(): Promise<boolean> {
      const text = job ? HELD : "SELECT pg_try_advisory_lock($1, hashtext($2)) AS yes";
      const { rows } = await link.query<{ yes: boolean }>({ text, values: [KIND, name] }, ANSWER_MS);
      return rows[0]?.yes === true;
    }

    async function end(): Promise<void> {
      const ended = job;
      job = null;
      await ended?.close();
    }

    return async () => {
      closed = true;
      stop();
      await looking;
      await end();
      await link.close();
    };
  }
}

const HELD = `SELECT count(*) > 0 AS yes FROM pg_locks WHERE "locktype" = 'advisory' AND "classid" = $1
  AND "objid" = (hashtext($2)::bigint & 4294967295)::oid AND "objsubid" = 2 AND "granted" AND "pid" = pg_backend_pid()
  AND "database" = (SELECT "oid" FROM pg_database WHERE "datname" = current_database())`;
