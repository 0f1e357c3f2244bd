import { type Sealed, seal } from "../../shared/evidence/chain.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Step } from "../../shared/session/step.ts";
import type { NameVeil } from "../evidence/names.ts";
import { sha256 } from "../sha256.ts";
import { ConcurrencyError, type EventStore, type SessionRow } from "../store/events.ts";
import { appendTraced } from "./append-traced.ts";
import { type Answered, noteAnswers } from "./recorded.ts";
import { type EventSource, type Replayed, readOn, TAIL } from "./replay.ts";
import { rowOf } from "./row.ts";

/**
 * How often a batch is decided anew when another server appended first. Each time one of them gets on, so that only
 * very many of them on one session come near it.
 */
const ATTEMPTS = 50;

/** What a piece of work sees: the session as it will be once the work before it is recorded. */
export interface Draft {
  readonly state: SessionState;
  answeredBefore(command: string): Answered | undefined;
  /** Takes over a step's events. */
  take(step: Step): void;
}

interface Job {
  work(draft: Draft): unknown;
  done(value: unknown): void;
  failed(error: unknown): void;
}

/** Told of a session's events once they are recorded; `ours` as sealed when this server appended them, else null. */
export type Published = (
  session: LiveSession,
  events: SessionEvent[],
  ours: readonly Sealed[] | null,
) => void;

/**
 * One session in memory: the only place this server's next event for it comes from. Work is done strictly one after another; what has
 * piled up while the last append was under way is decided together and appended as one. Nothing of it counts, is told
 * or is answered before the append is durable.
 */
export class LiveSession {
  readonly #store: EventStore;
  readonly #row: SessionRow;
  readonly #names: NameVeil;
  readonly #published: Published;
  #held: Replayed;
  #jobs: Job[] = [];
  /** The work under way, until nothing is left to do. */
  #draining: Promise<void> | null = null;
  /** How far the record is said to go. */
  #told = 0;
  /** Events that came along with that. */
  #said: Sealed[] = [];
  /** Why what others recorded could not be read when last tried, null when it could. */
  #behind: unknown = null;

  constructor(store: EventStore, row: SessionRow, held: Replayed, names: NameVeil, published: Published) {
    this.#names = names;
    this.#store = store;
    this.#row = row;
    this.#held = held;
    this.#published = published;
  }

  get state(): SessionState {
    return this.#held.state;
  }

  get code(): string {
    return this.#row.code;
  }

  /** The events after `since`, or null when they are no longer at hand. */
  after(since: number): SessionEvent[] | null {
    const { state, tail } = this.#held;
    if (since > state.seq || since < state.seq - tail.length) return null;
    return tail.slice(tail.length - (state.seq - since));
  }

  /**
   * Resolves to what `work` returned once its events are durable and told.
   * @throws StoreFailure when they could not be kept: then it is as if the work had never been done
   */
  run<T>(work: (draft: Draft) => T): Promise<T> {
    return new Promise<T>((done, failed) => {
      this.#jobs.push({ work, done: done as (value: unknown) => void, failed });
      void this.#drain();
    });
  }

  /**
   * Another server recorded up to `seq`, as far as is known: resolves once that is held and told here too.
   * @param said its events as that server told them: taken when they are the next links of the chain, else read
   * @throws StoreFailure when it cannot be read, or does not follow on what is held
   */
  async follow(seq: number, said: readonly Sealed[] = []): Promise<void> {
    this.#told = Math.max(this.#told, seq);
    // What comes late would lie here until the next reading.
    if (seq > this.state.seq) this.#said.push(...said);
    await this.#drain();
    if (this.#behind !== null) throw this.#behind;
  }

  #drain(): Promise<void> {
    if (!this.#draining && this.#isIdle) return Promise.resolve();
    this.#draining ??= this.#drainAll();
    return this.#draining;
  }

  get #isIdle(): boolean {
    return this.#jobs.length === 0 && this.#told <= this.state.seq;
  }

  async #drainAll(): Promise<void> {
    while (!this.#isIdle) {
      if (this.#told > this.state.seq) this.#behind = await this.#catchUp();
      if (this.#jobs.length > 0) await this.#batch(this.#jobs.splice(0));
    }
    this.#draining = null;
  }

  async #batch(jobs: readonly Job[]): Promise<void> {
    for (let attempt = 1; ; attempt += 1) {
      const draft = new Drafting(this.#held, this.#names);
      const outcomes = jobs.map((job) => draft.attempt(job));
      try {
        await this.#append(draft);
      } catch (error) {
        const first = error instanceof ConcurrencyError && attempt < ATTEMPTS;
        const fault = first ? await this.#catchUp() : error;
        if (fault === null) continue;
        // It may have been kept all the same: what is decided next must stand on what is there.
        this.#told = Number.POSITIVE_INFINITY;
        for (const job of jobs) job.failed(fault);
        return;
      }
      this.#adopt(draft);
      for (const outcome of outcomes) outcome();
      return;
    }
  }

  async #append({ state, sealed, events }: Drafting): Promise<void> {
    const last = sealed.at(-1);
    if (!last) return;
    await appendTraced(this.#store, {
      expected: this.#held.state.seq,
      events: sealed.map((s, i) => {
        const { at, command, fact } = events[i] as SessionEvent;
        return { ...s, at, command, type: fact.type };
      }),
      row: rowOf(this.#row, state, last.hash),
    });
  }

  #adopt({ state, headHash, events, sealed }: Drafting): void {
    if (events.length === 0) return;
    const { answered, tail } = this.#held;
    noteAnswers(answered, events);
    this.#held = { state, headHash, answered, tail: [...tail, ...events].slice(-TAIL) };
    this.#published(this, events, sealed);
  }

  /** Takes over what others recorded; gives what kept it from that, or null. */
  async #catchUp(): Promise<unknown> {
    const said = upTo(this.#told, this.#said.splice(0), this.state.seq);
    // What is told from here on may come too late for this reading.
    this.#told = 0;
    const taken = said !== null && (await this.#readOn({ read: async () => said })) === null;
    return taken ? null : this.#readOn(this.#store);
  }

  async #readOn(from: EventSource): Promise<unknown> {
    try {
      const { held, events } = await readOn(from, this.#row.id, this.#held, this.#names);
      this.#held = held;
      if (events.length > 0) this.#published(this, events, null);
      return null;
    } catch (error) {
      return error;
    }
  }
}

/** Those of the events said that lead from `seq` to `told` without a gap, null when they do not. */
function upTo(told: number, said: readonly Sealed[], seq: number): Sealed[] | null {
  const next = [...new Map(said.map((one) => [one.seq, one])).values()]
    .filter((one) => one.seq > seq)
    .sort((a, b) => a.seq - b.seq);
  const whole = next.every((one, i) => one.seq === seq + 1 + i) && next.at(-1)?.seq === told;
  return whole ? next : null;
}

/** The session with work done on it that is not yet recorded. */
class Drafting implements Draft {
  state: SessionState;
  headHash: string;
  readonly events: SessionEvent[] = [];
  readonly sealed: Sealed[] = [];
  readonly #names: NameVeil;
  readonly #before: ReadonlyMap<string, Answered>;
  readonly #answered = new Map<string, Answered>();

  constructor(held: Replayed, names: NameVeil) {
    this.#names = names;
    this.state = held.state;
    this.headHash = held.headHash;
    this.#before = held.answered;
  }

  answeredBefore(command: string): Answered | undefined {
    return this.#answered.get(command) ?? this.#before.get(command);
  }

  take(step: Step): void {
    const sealed: Sealed[] = [];
    let hash = this.headHash;
    for (const event of step.events) {
      const one = seal(this.#names.veil(event), hash, sha256);
      sealed.push(one);
      hash = one.hash;
    }
    this.sealed.push(...sealed);
    this.events.push(...step.events);
    this.headHash = hash;
    this.state = step.state;
    noteAnswers(this.#answered, step.events);
  }

  /** Does one piece of work; its outcome is told to whoever waits only when called. One's failure is its own. */
  attempt(job: Job): () => void {
    try {
      const value = job.work(this);
      return () => job.done(value);
    } catch (error) {
      return () => job.failed(error);
    }
  }
}
