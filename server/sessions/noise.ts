import { setImmediate } from "node:timers/promises";
import { readSealed } from "../../shared/evidence/read.ts";
import { type NoiseLog, noiseAfter } from "../../shared/figures/noiseLog.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { OneAtATime } from "../one-at-a-time.ts";
import type { EventStore, SessionRow } from "../store/events.ts";

const DAY_MS = 86_400_000;
/** Most sessions per day that are read: far more than one ramp has. */
const LISTED = 500;
const PAGE = 500;

/** Noise logs of the last day's sessions, updated from the record as it grows. */
export class NoiseLogs {
  readonly #store: EventStore;
  readonly #names: Pseudonyms;
  readonly #logs = new Map<string, NoiseLog>();
  readonly #reading = new OneAtATime();

  constructor(store: EventStore, names: Pseudonyms) {
    this.#store = store;
    this.#names = names;
  }

  /**
   * Returns the noise logs of session `asked`, of all open sessions, and of those with an event in the 24 hours
   * before `now`.
   * Empty for a rehearsal: nobody stands in noise there, and no other session's dose counts one.
   * @throws StoreFailure when one cannot be read: the dose would come out too small without it
   */
  upTo(now: number, asked: string): Promise<ReadonlyMap<string, NoiseLog>> {
    if (isRehearsalId(asked)) return Promise.resolve(new Map());
    // One after another: two at once would read the same events twice.
    return this.#reading.run(() => this.#upTo(now, asked));
  }

  async #upTo(now: number, asked: string): Promise<ReadonlyMap<string, NoiseLog>> {
    const rows = new Map<string, SessionRow>();
    // Nothing turns before the brief is over, so nobody stands in noise.
    for (const row of [await this.#store.session(asked), ...(await this.#store.openSessions())])
      if (row && !isRehearsalId(row.id) && (row.id === asked || !isPlanned(row))) rows.set(row.id, row);
    for (const row of await this.#store.sessions(LISTED))
      if (row.headAt > now - DAY_MS && !isPlanned(row)) rows.set(row.id, row);
    for (const id of this.#logs.keys()) if (!rows.has(id)) this.#logs.delete(id);
    for (const row of rows.values()) await this.#hear(row);
    return new Map(this.#logs);
  }

  async #hear({ id, headSeq }: SessionRow): Promise<void> {
    let log = this.#logs.get(id) ?? null;
    while ((log?.state.seq ?? 0) < headSeq) {
      const events = await this.#store.read(id, log?.state.seq ?? 0, PAGE);
      if (events.length === 0) break;
      await this.#names.loadFor(events.map((e) => e.body));
      if (events.length === PAGE) await setImmediate();
      for (const { body } of events) log = noiseAfter(log, readSealed(this.#names.reveal(body)).event);
    }
    if (log) this.#logs.set(id, log);
  }
}

/** Nothing was recorded but the plan. */
const isPlanned = ({ headSeq }: SessionRow): boolean => headSeq === 1;
