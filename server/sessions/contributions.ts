import type { SessionState } from "../../shared/session/state.ts";
import type { SessionsDeps } from "./deps.ts";
import type { HeldSessions } from "./held-sessions.ts";

/** Adds to each aircraft's record what its sessions changed. */
export class Contributions {
  readonly #deps: SessionsDeps;
  readonly #held: HeldSessions;

  constructor(deps: SessionsDeps, held: HeldSessions) {
    this.#deps = deps;
    this.#held = held;
  }

  /** Adds what a session changed to its aircraft's record. */
  async add(state: SessionState): Promise<void> {
    try {
      await this.#deps.records.contribute(state);
      this.#deps.bus.send({ is: "recordMoved", aircraft: state.aircraft });
    } catch (error) {
      // The session's own events are durable: it contributes again with its next change, or when it is next loaded.
      this.#deps.log.error({ err: error, session: state.id }, "the aircraft's record could not be kept");
    }
    if (state.stage === "closed") await this.#noteStarts(state.id);
  }

  /** Notes who made a start in a closed session. Apart from the aircraft's record, which other servers must hear of first. */
  async #noteStarts(session: string): Promise<void> {
    try {
      await this.#deps.currencies.closed(session);
    } catch (error) {
      this.#deps.log.error({ err: error, session }, "the starts of a closed session could not be noted");
    }
  }

  /** Brings every open session's part into its aircraft's record, after a start. */
  async addAll(): Promise<void> {
    const { store } = this.#deps;
    for (const record of await store.records()) await this.#addEnded(record.aircraft);
    for (const { id } of await store.openSessions()) await this.#addOf(id);
  }

  /** A session that ended just before a crash may not have told its aircraft's record. */
  async #addEnded(aircraft: string): Promise<void> {
    const { log, records, store } = this.#deps;
    try {
      const record = await records.read(aircraft);
      for (const id of Object.keys(record?.open ?? {}))
        if ((await store.session(id))?.closedAt != null) await this.#addOf(id);
    } catch (error) {
      log.error({ err: error, aircraft }, "the aircraft's record could not be read");
    }
  }

  async #addOf(id: string): Promise<void> {
    try {
      await this.add((await this.#held.get(id)).state);
    } catch (error) {
      // Go on with the other sessions. This one answers that it is not available until it can be read again.
      this.#deps.log.error(
        { err: error, session: id },
        "a session could not be read for its aircraft's record",
      );
    }
  }
}
