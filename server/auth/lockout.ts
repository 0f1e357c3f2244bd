import type { Clock } from "../clock.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";

/** Failures that pass without a wait. */
const FREE_FAILURES = 5;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = 15 * 60_000;
/** Failures this old are forgotten. */
const FORGET_MS = 24 * 3_600_000;

/** What is counted: the handle that was typed, whether or not anybody has it, and the device it was typed on. */
export type Counted = `person:${string}` | `device:${string}`;

export function countedPerson(handle: string): Counted {
  return `person:${sha256(handle)}`;
}

export function countedDevice(id: string): Counted {
  return `device:${sha256(id)}`;
}

/** Milliseconds to wait after the nth failure in a row: none before the fifth, then 30 s, doubling, at most 15 min. */
export function waitAfter(failures: number): number {
  if (failures < FREE_FAILURES) return 0;
  return Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - FREE_FAILURES));
}

/** Counts failed sign-ins, so that a PIN cannot be guessed by trying. Kept in the database: a restart forgets none. */
export class Lockouts {
  readonly #directory: Directory;
  readonly #clock: Clock;
  #last: Promise<unknown> = Promise.resolve();

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#clock = clock;
  }

  /**
   * Counts an attempt as failed before it is looked at, so that a hundred at once count as a hundred. Returns 0 when
   * it may be looked at, else the milliseconds left to wait; a refused attempt is not counted.
   */
  begin(keys: readonly Counted[]): Promise<number> {
    return this.#inTurn(async () => {
      const now = this.#clock.now();
      const known = await Promise.all(keys.map((key) => this.#directory.lockout(key)));
      const left = Math.max(0, ...known.map((l) => (l?.lockedUntil ?? 0) - now));
      if (left > 0) return left;
      for (const [i, key] of keys.entries()) {
        const before = known[i];
        const failures = before && before.updatedAt > now - FORGET_MS ? before.failures + 1 : 1;
        const wait = waitAfter(failures);
        const lockedUntil = wait === 0 ? null : now + wait;
        await this.#directory.putLockout({ key, failures, lockedUntil, updatedAt: now });
      }
      return 0;
    });
  }

  /** The attempt was right after all: its keys start anew. */
  succeeded(keys: readonly Counted[]): Promise<void> {
    return this.#inTurn(async () => {
      const now = this.#clock.now();
      for (const key of keys)
        await this.#directory.putLockout({ key, failures: 0, lockedUntil: null, updatedAt: now });
    });
  }

  /** Drops what is too old to count: handles that were only ever guessed would pile up. */
  forgetOld(): Promise<void> {
    return this.#directory.forgetLockouts(this.#clock.now() - FORGET_MS);
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#last.then(work);
    this.#last = turn.catch(() => {});
    return turn;
  }
}
