import type { Clock, Timers } from "../clock.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import { NONCE_MS } from "./nonces.ts";

/** A nonce from a clock slightly ahead is good for up to two lifetimes, so used proofs are remembered that long. */
const KEPT_MS = 2 * NONCE_MS;

/**
 * Longest wait for the record shared with other servers. A panel that cannot sign in cannot send a stop, so without
 * the database each server checks only what it accepted itself. Milliseconds.
 */
const SHARED_MS = 500;

/** Remembers single-use values for as long as their nonce is good. */
export class SingleUse {
  readonly #clock: Clock;
  readonly #timers: Timers;
  readonly #shared: Pick<Directory, "takeOnce" | "forgetTaken"> | null;
  /** Values accepted here in the current and in the previous period. */
  #here: [Set<string>, Set<string>] = [new Set(), new Set()];
  #spanBegan = 0;

  /** @param shared the record that all servers share; null for a single server */
  constructor(clock: Clock, timers: Timers, shared: Pick<Directory, "takeOnce" | "forgetTaken"> | null) {
    this.#clock = clock;
    this.#timers = timers;
    this.#shared = shared;
  }

  /** Returns true when the value was not used before, and marks it as used. */
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
      // A failure to delete only takes room.
      void this.#shared?.forgetTaken(now).catch(() => undefined);
    }
    const [current, before] = this.#here;
    if (current.has(id) || before.has(id)) return false;
    current.add(id);
    return true;
  }
}
