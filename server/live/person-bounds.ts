import { Bucket } from "./bucket.ts";
import { LIMITS } from "./limits.ts";

/** Message limits of one person, over all their sockets, so that reconnecting does not reset them. */
export interface PersonBounds {
  all: Bucket;
  /** A stop beyond this limit still acts, but a stop that already stands is not recorded again. */
  stops: Bucket;
  /** Sessions that are over and have to be read anew to be shown. */
  readings: Bucket;
}

/** People looked at with each new one. More than one, so that the map shrinks again after a crowd. */
const LOOKED_AT = 2;

/** The limits of every person who sent something lately. */
export class Bounds {
  /** In the order in which they were looked at last. */
  readonly #people = new Map<string, PersonBounds>();

  /** People whose limits are in memory. */
  get size(): number {
    return this.#people.size;
  }

  /** Returns a person's limits. Deletes some that are full again, so that the map stays small at a constant cost. */
  of(person: string, now: number): PersonBounds {
    const known = this.#people.get(person);
    if (known) return known;
    this.#forgetFull(now);
    const bounds = {
      all: new Bucket(LIMITS.personBurst, LIMITS.personPerSecond, now),
      stops: new Bucket(LIMITS.stopBurst, LIMITS.stopsPerSecond, now),
      readings: new Bucket(LIMITS.readingBurst, LIMITS.readingsPerSecond, now),
    };
    this.#people.set(person, bounds);
    return bounds;
  }

  #forgetFull(now: number): void {
    const oldest = this.#people.entries();
    for (let n = 0; n < LOOKED_AT; n += 1) {
      const { value } = oldest.next();
      if (!value) return;
      const [id, of] = value;
      this.#people.delete(id);
      if (!Object.values(of).every((bucket: Bucket) => bucket.isFull(now))) this.#people.set(id, of);
    }
  }
}
