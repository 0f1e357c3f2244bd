import type { Clock, Timers } from "../clock.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import { NONCE_MS } from "./nonces.ts";

/** A nonce from a clock a little ahead lives for up to two spans, and what it dates must be known so long. */
const KEPT_MS = 2 * NONCE_MS;

/**
 * How long the record shared with other servers is waited for. A panel that cannot come in cannot give a stop: while
 * the database is away each server knows what it took itself. Milliseconds.
 */
const SHARED_MS = 500;

/** Remembers what is good for one use, as long as the nonce in it is good. */
export class Taken {
  readonly #clock: Clock;
  readonly #timers: Timers;
  readonly #shared: Pick<Directory, "takeOnce" | "forgetTaken"> | null;
  /** What was taken here in this span and in the one before it. */
  #here: [Set<string>, Set<string>] = [new Set(), new Set()];
  #spanBegan = 0;

  /** @param shared where other servers look too; null where there are none */
  constructor(clock: Clock, timers: Timers, shared: Pick<Directory, "takeOnce" | "forgetTaken"> | null) {
    this.#clock = clock;
    this.#timers = timers;
    this.#shared = shared;
  }

  /** Whether it had not been taken before; from now on it is. */
  async take(id: string): Promise<boolean> {
    if (!this.#takeHere(id)) return false;
    if (!this.#shared) return true;
    const shared = this.#shared.takeOnce(sha256(id), this.#clock.now() + 2 * KEPT_MS);
    let stop = () => {};
    const late = new Promise<true>((resolve) => {
      stop = this.#timers.after(SHARED_MS, () => resolve(true));
    });
    return Promise.race([shared.catch(() => true), late]).finally(() => stop());
  }

  #takeHere(id: string): boolean {
    const now = this.#clock.now();
    const old = now - this.#spanBegan;
    if (old >= KEPT_MS) {
      this.#here = old >= 2 * KEPT_MS ? [new Set(), new Set()] : [new Set(), this.#here[0]];
      this.#spanBegan = now;
      // What stays a little longer takes room and nothing else.
      void this.#shared?.forgetTaken(now).catch(() => undefined);
    }
    const [current, before] = this.#here;
    if (current.has(id) || before.has(id)) return false;
    current.add(id);
    return true;
  }
}
