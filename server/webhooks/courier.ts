import type { Timers } from "../clock.ts";
import { LiveReader, type LiveReaderDeps } from "../live/live-reader.ts";
import { positionIn } from "../live/stream-position.ts";
import { AddressRefused, type Resolve } from "./address.ts";
import { webhookBody, webhookKind } from "./kinds.ts";
import type { ProgressStore } from "./progress.ts";
import { sendTo } from "./send.ts";
import type { Target } from "./targets.ts";

/** The wait after the nth failure in a row: 5 s, doubling, at most 10 minutes. Milliseconds. */
const FIRST_WAIT_MS = 5_000;
const LONGEST_WAIT_MS = 600_000;
/** A message is tried for this long. Milliseconds. */
const TRIED_MS = 24 * 3_600_000;
/** A message that the target refuses as wrong is tried this often. */
const REFUSED_TRIES = 3;
/** Answers that say "later": too early, too many, a time that ran out. */
const LATER = [408, 425, 429];

export interface CourierDeps extends LiveReaderDeps {
  timers: Timers;
  progress: ProgressStore;
  resolve: Resolve;
  log: { error(detail: object, message: string): void; warn(detail: object, message: string): void };
}

/**
 * Takes the events of the record to one target, in the order of each session. The record is the queue: only the position
 * is kept, so nothing is lost in a restart, and a message that is sent again has the same id.
 */
export class Courier {
  readonly #deps: CourierDeps;
  readonly #target: Target;
  #reader: LiveReader | null = null;
  #rest: () => void = () => {};
  #closed = false;
  #waits: string | null = null;
  /** Resolves when the courier has stopped. */
  readonly done: Promise<void>;

  constructor(deps: CourierDeps, target: Target) {
    this.#deps = deps;
    this.#target = target;
    this.done = this.#run();
  }

  /** Why the newest message waits; null when none does. */
  get waits(): string | null {
    return this.#waits;
  }

  moved(session: string): void {
    this.#reader?.moved(session);
  }

  close(): void {
    this.#closed = true;
    this.#reader?.close();
    this.#rest();
  }

  async #run(): Promise<void> {
    for (let failures = 0; !this.#closed; failures += 1) {
      try {
        await this.#read();
      } catch (error) {
        this.#deps.log.error({ err: error, target: this.#target.name }, "a webhook cannot read the record");
        await this.#wait(failures);
      }
    }
  }

  async #read(): Promise<void> {
    const { progress } = this.#deps;
    const { name } = this.#target;
    const saved = await progress.position(name);
    const reader = await LiveReader.open(
      this.#deps,
      { is: "ramp" },
      saved === null ? null : positionIn(saved),
    );
    this.#reader = reader;
    if (this.#closed) return;
    for await (const { position, event } of reader.entries()) {
      const kind = event && webhookKind(event);
      if (event && kind && this.#target.kinds.includes(kind)) {
        const id = `${event.session}.${event.seq}`;
        if (!(await this.#deliver(id, kind, webhookBody(kind, event)))) return;
      }
      await progress.reached(name, position);
    }
  }

  /** Sends a message until it is taken or given up. Returns false when the courier stops before. */
  async #deliver(id: string, kind: string, body: string): Promise<boolean> {
    const { clock, progress, resolve, log } = this.#deps;
    const { name } = this.#target;
    const began = clock.now();
    let refused = 0;
    for (let failures = 0; !this.#closed; failures += 1) {
      const why = await this.#attempt({ id, body, now: clock.now() }, resolve);
      this.#waits = why?.words ?? null;
      if (why === null) return true;
      if (why.refused) refused += 1;
      if (refused >= REFUSED_TRIES || clock.now() - began >= TRIED_MS) {
        log.warn({ target: name, id, why: why.words }, "a webhook's message was given up");
        await progress.gaveUp({
          at: new Date(clock.now()).toISOString(),
          target: name,
          id,
          kind,
          why: why.words,
        });
        return true;
      }
      await this.#wait(failures);
    }
    return false;
  }

  /** Returns null when the message was taken, else why not. */
  async #attempt(
    message: { id: string; body: string; now: number },
    resolve: Resolve,
  ): Promise<{ words: string; refused: boolean } | null> {
    try {
      const status = await sendTo(this.#target, message, resolve);
      if (status >= 200 && status < 300) return null;
      return { words: `answered ${status}`, refused: status < 500 && !LATER.includes(status) };
    } catch (error) {
      return { words: (error as Error).message, refused: error instanceof AddressRefused };
    }
  }

  #wait(failures: number): Promise<void> {
    const ms = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(failures, 10));
    return new Promise((resolve) => {
      const stop = this.#deps.timers.after(ms, resolve);
      this.#rest = () => {
        stop();
        resolve();
      };
      if (this.#closed) this.#rest();
    });
  }
}
