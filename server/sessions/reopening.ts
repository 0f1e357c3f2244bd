import { voidPermissions } from "../../shared/session/step.ts";
import type { SessionRow } from "../store/events.ts";
import { kept, type SessionsDeps } from "./deps.ts";
import type { LiveSession } from "./live-session.ts";

/** Sessions read at the same time: enough to flush their events to the disk together. */
const TOGETHER = 16;

/**
 * The sessions that were open when the server started. Each has its restart recorded, which voids its clearances, before
 * anything else is done with it. The server listens meanwhile, because a stop must not wait for two thousand sessions.
 */
export class Reopening {
  readonly #deps: SessionsDeps;
  readonly #get: (id: string) => Promise<LiveSession>;
  /** Ids of the sessions in which the restart is not recorded yet. */
  readonly #left = new Set<string>();
  #whole: Promise<void> = Promise.resolve();

  constructor(deps: SessionsDeps, get: (id: string) => Promise<LiveSession>) {
    this.#deps = deps;
    this.#get = get;
  }

  /** Resolves once all these sessions were read, or were found unreadable, and `then` is done. */
  get whole(): Promise<void> {
    return this.#whole;
  }

  /** Begins to read the open sessions, the newest first, and then runs `then`. Resolves before the first is read. */
  async begin(then: () => Promise<void>): Promise<void> {
    const rows = await this.#deps.store.openSessions();
    for (const { id } of rows) this.#left.add(id);
    this.#whole = this.#readAll(rows)
      .then(then)
      .catch((error) => this.#deps.log.error({ err: error }, "the aircraft's records could not be read"));
  }

  /**
   * Records the restart in a session, unless it is recorded already.
   * @throws StoreFailure when it could not be recorded; the session must not be used then
   */
  async record(live: LiveSession): Promise<void> {
    const { id } = live.state;
    if (!this.#left.has(id)) return;
    const now = this.#deps.clock.now();
    await kept(
      this.#deps,
      live.run((draft) => draft.take(voidPermissions(draft.state, { type: "restarted" }, now))),
    );
    this.#left.delete(id);
  }

  async #readAll(rows: readonly SessionRow[]): Promise<void> {
    const waiting = rows.toSorted((a, b) => a.headAt - b.headAt);
    const one = async () => {
      for (let row = waiting.pop(); row; row = waiting.pop()) await this.#read(row.id);
    };
    await Promise.all(Array.from({ length: TOGETHER }, one));
  }

  async #read(id: string): Promise<void> {
    try {
      await this.#get(id);
    } catch (error) {
      // Go on with the others. This one answers that it is not available until it can be read and written again.
      this.#deps.log.error({ err: error, session: id }, "a restart could not be recorded");
    }
  }
}
