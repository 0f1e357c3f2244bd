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

export type Judged = { is: "right" } | { is: "wrong" } | { is: "locked"; waitMs: number };

/** Counts failed sign-ins, so that a PIN cannot be guessed by trying. Kept in the database: a restart forgets none. */
export class Lockouts {
  readonly #directory: Directory;
  readonly #clock: Clock;
  /** The last attempt under way for each thing counted. */
  readonly #last = new Map<Counted, Promise<unknown>>();

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#clock = clock;
  }

  /**
   * Makes an attempt unless one of its keys is locked, and counts it when it fails. Attempts that share a key are made
   * one after another, on whichever server, so that a hundred at once count one by one. An attempt refused for a lock is not counted.
   */
  judge(keys: readonly Counted[], attempt: () => Promise<boolean>): Promise<Judged> {
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

  /** Drops what is too old to count: handles that were only ever guessed would pile up. */
  forgetOld(): Promise<void> {
    return this.#directory.forgetLockouts(this.#clock.now() - FORGET_MS);
  }

  async #judge(keys: readonly Counted[], attempt: () => Promise<boolean>): Promise<Judged> {
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
