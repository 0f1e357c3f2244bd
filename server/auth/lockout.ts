import type { Clock } from "../clock.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";

/** Failures in a row before the first wait. */
const FREE_FAILURES = 5;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = 15 * 60_000;
/** Failures older than this are ignored. */
const FORGET_MS = 24 * 3_600_000;

/** A counter's key: the hash of the typed handle, whether or not it exists, or of the device's id. */
export type LockoutKey = `person:${string}` | `device:${string}`;

export function personLockoutKey(handle: string): LockoutKey {
  return `person:${sha256(handle)}`;
}

export function deviceLockoutKey(id: string): LockoutKey {
  return `device:${sha256(id)}`;
}

/**
 * Returns the wait in milliseconds after the nth failure in a row: 0 before the fifth, then 30 s, doubling, at most
 * 15 min.
 */
export function waitAfter(failures: number): number {
  if (failures < FREE_FAILURES) return 0;
  return Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - FREE_FAILURES));
}

export type Judged = { is: "right" } | { is: "wrong" } | { is: "locked"; waitMs: number };

/**
 * Counts failed sign-ins, so that nobody can guess a PIN by trying. The counts are in the database and survive a
 * restart.
 */
export class Lockouts {
  readonly #directory: Directory;
  readonly #clock: Clock;
  /** The latest attempt in progress per key. */
  readonly #last = new Map<LockoutKey, Promise<unknown>>();

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#clock = clock;
  }

  /**
   * Runs an attempt unless one of its keys is locked, and counts a failure. Attempts that share a key run one after
   * another, on all servers together, so that parallel attempts are counted one by one. An attempt that a lock
   * refuses is not counted.
   */
  judge(keys: readonly LockoutKey[], attempt: () => Promise<boolean>): Promise<Judged> {
    const before = keys.map((key) => this.#last.get(key));
    const turn = Promise.allSettled(before).then(() =>
      this.#directory.inTurn(keys, () => this.#judge(keys, attempt)),
    );
    for (const key of keys) this.#last.set(key, turn);
    const done = () => {
      for (const key of keys) if (this.#last.get(key) === turn) this.#last.delete(key);
    };
    turn.then(done, done);
    return turn;
  }

  /** Deletes expired counters: handles that do not exist would otherwise accumulate. */
  forgetOld(): Promise<void> {
    return this.#directory.forgetLockouts(this.#clock.now() - FORGET_MS);
  }

  async #judge(keys: readonly LockoutKey[], attempt: () => Promise<boolean>): Promise<Judged> {
    const now = this.#clock.now();
    const known = await Promise.all(keys.map((key) => this.#directory.lockout(key)));
    const waitMs = Math.max(0, ...known.map((l) => (l?.lockedUntil ?? 0) - now));
    if (waitMs > 0) return { is: "locked", waitMs };
    const right = await attempt();
    for (const [i, key] of keys.entries()) {
      const before = known[i];
      if (right) {
        if (before) await this.#directory.putLockout({ key, failures: 0, lockedUntil: null, updatedAt: now });
        continue;
      }
      const failures = before && before.updatedAt > now - FORGET_MS ? before.failures + 1 : 1;
      const wait = waitAfter(failures);
      const lockedUntil = wait === 0 ? null : now + wait;
      await this.#directory.putLockout({ key, failures, lockedUntil, updatedAt: now });
    }
    return { is: right ? "right" : "wrong" };
  }
}
