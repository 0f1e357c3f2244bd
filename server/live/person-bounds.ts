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

/** The limits of every person who sent something lately. */
export class Bounds {
  readonly #people = new Map<string, PersonBounds>();

  /** Returns a person's limits. Deletes those that are full again, so that the map stays small. */
  of(person: string, now: number): PersonBounds {
    const known = this.#people.get(person);
    if (known) return known;
    for (const [id, of] of this.#people)
      if (Object.values(of).every((bucket: Bucket) => bucket.isFull(now))) this.#people.delete(id);
    const bounds = {
      all: new Bucket(LIMITS.personBurst, LIMITS.personPerSecond, now),
      stops: new Bucket(LIMITS.stopBurst, LIMITS.stopsPerSecond, now),
      readings: new Bucket(LIMITS.readingBurst, LIMITS.readingsPerSecond, now),
    };
    this.#people.set(person, bounds);
    return bounds;
  }
}
