import { type Sealed, seal } from "../../shared/evidence/chain.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Step } from "../../shared/session/step.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { sha256 } from "../sha256.ts";
import { ConcurrencyError, type EventStore, type SessionRow } from "../store/events.ts";
import { appendTraced } from "./append-traced.ts";
import { ANSWERED_KEPT, type Answered, forgetOldAnswers, noteAnswers } from "./recorded.ts";
import { type EventSource, type Replayed, readOn, TAIL } from "./replay.ts";
import { rowOf } from "./row.ts";

/**
 * Attempts to append a batch when other servers append first. In each round one of the competing servers succeeds, so
 * only very many on one session reach the limit.
 */
const ATTEMPTS = 50;

/** The session as one job sees it: as it will be when the jobs before it are recorded. */
export interface Draft {
  readonly state: SessionState;
  answeredBefore(command: string): Answered | undefined;
  /** Adds a step's events. */
  take(step: Step): void;
}

interface Job {
  work(draft: Draft): unknown;
  done(value: unknown): void;
  failed(error: unknown): void;
}

/**
 * Called with a session's events once they are recorded. `ours`: the sealed events when this server appended them,
 * else null.
 */
export type Published = (
  session: LiveSession,
  events: SessionEvent[],
  ours: readonly Sealed[] | null,
) => void;

/**
 * One session in memory. All events that this server adds to the session are made here. Jobs run strictly one after
 * another. Jobs that arrive during an append are decided together and appended as one batch. Nothing is published or
 * answered before the append is durable.
 */
export class LiveSession {
  readonly #store: EventStore;
  readonly #row: SessionRow;
  readonly #names: Pseudonyms;
  readonly #published: Published;
  #held: Replayed;
  #jobs: Job[] = [];
  /** Resolves when all present jobs are done; null when idle. */
  #draining: Promise<void> | null = null;
  /** Highest sequence number that another server announced. */
  #announcedSeq = 0;
  /** Events that came with the announcements. */
  #announced: Sealed[] = [];
  /** The error of the last attempt to read what others recorded; null after success. */
  #behind: unknown = null;

  constructor(store: EventStore, row: SessionRow, held: Replayed, names: Pseudonyms, published: Published) {
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

  /** True when the oldest answers are no longer in memory: the answer to a command may then be in the store alone. */
  get hasOldAnswers(): boolean {
    return this.#held.answered.size >= ANSWERED_KEPT;
  }

  /** Returns the events after `since`; null when they are no longer in memory. */
  after(since: number): SessionEvent[] | null {
    const { state, tail } = this.#held;
    if (since > state.seq || since < state.seq - tail.length) return null;
    return tail.slice(tail.length - (state.seq - since));
  }

  /**
   * Resolves to the result of `work` once its events are durable and published.
   * @throws StoreFailure when they could not be stored; the session is then as before
   */
  run<T>(work: (draft: Draft) => T): Promise<T> {
    return new Promise<T>((done, failed) => {
      this.#jobs.push({ work, done: done as (value: unknown) => void, failed });
      void this.#drain();
    });
  }

  /**
   * Resolves once events of another server up to `seq` are taken over and published here.
   * @param announced the events as announced: used when they continue the chain, else read from the store
   * @throws StoreFailure when they cannot be read, or do not continue what is held
   */
  async follow(seq: number, announced: readonly Sealed[] = []): Promise<void> {
    this.#announcedSeq = Math.max(this.#announcedSeq, seq);
    // Drop stale peer events: they would stay in memory until the next read.
    if (seq > this.state.seq) this.#announced.push(...announced);
    await this.#drain();
    if (this.#behind !== null) throw this.#behind;
  }

  #drain(): Promise<void> {
    if (!this.#draining && this.#isIdle) return Promise.resolve();
    this.#draining ??= this.#drainAll();
    return this.#draining;
  }

  get #isIdle(): boolean {
    return this.#jobs.length === 0 && this.#announcedSeq <= this.state.seq;
  }

  async #drainAll(): Promise<void> {
    while (!this.#isIdle) {
      if (this.#announcedSeq > this.state.seq) this.#behind = await this.#catchUp();
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
        // The append may have succeeded all the same, so read the store before the next decision.
        this.#announcedSeq = Number.POSITIVE_INFINITY;
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
    forgetOldAnswers(answered);
    this.#held = { state, headHash, answered, tail: [...tail, ...events].slice(-TAIL) };
    this.#published(this, events, sealed);
  }

  /** Takes over what others recorded. Returns the error, or null. */
  async #catchUp(): Promise<unknown> {
    const announced = upTo(this.#announcedSeq, this.#announced.splice(0), this.state.seq);
    // Reset before the read: a later announcement may be too late for it.
    this.#announcedSeq = 0;
    const taken = announced !== null && (await this.#readOn({ read: async () => announced })) === null;
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

/** Returns the announced events that lead from `seq` to `announcedSeq` without a gap; null when there is a gap. */
function upTo(announcedSeq: number, announced: readonly Sealed[], seq: number): Sealed[] | null {
  const next = [...new Map(announced.map((one) => [one.seq, one])).values()]
    .filter((one) => one.seq > seq)
    .sort((a, b) => a.seq - b.seq);
  const whole = next.every((one, i) => one.seq === seq + 1 + i) && next.at(-1)?.seq === announcedSeq;
  return whole ? next : null;
}

/** A session with work on it that is not recorded yet. */
class Drafting implements Draft {
  state: SessionState;
  headHash: string;
  readonly events: SessionEvent[] = [];
  readonly sealed: Sealed[] = [];
  readonly #names: Pseudonyms;
  readonly #before: ReadonlyMap<string, Answered>;
  readonly #answered = new Map<string, Answered>();

  constructor(held: Replayed, names: Pseudonyms) {
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
      const one = seal(this.#names.pseudonymise(event), hash, sha256);
      sealed.push(one);
      hash = one.hash;
    }
    this.sealed.push(...sealed);
    this.events.push(...step.events);
    this.headHash = hash;
    this.state = step.state;
    noteAnswers(this.#answered, step.events);
  }

  /** Runs one job. Returns a function that reports its outcome to the caller. An error affects this job only. */
  attempt(job: Job): () => void {
    try {
      const value = job.work(this);
      return () => job.done(value);
    } catch (error) {
      return () => job.failed(error);
    }
  }
}
