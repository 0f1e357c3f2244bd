import { Bucket } from "./bucket.ts";
import { LIMITS } from "./limits.ts";

/** What one person may say by all their sockets together, however often these are opened anew. */
export interface PersonBounds {
  all: Bucket;
  /** Stops past it are taken all the same, but not recorded again while they stand. */
  stops: Bucket;
}

/** The bounds of everybody who said something lately. */
export class Bounds {
  readonly #people = new Map<string, PersonBounds>();

  /** To be asked for at each message: whoever was silent until all was earned back is forgotten meanwhile. */
  of(person: string, now: number): PersonBounds {
    const known = this.#people.get(person);
    if (known) return known;
    for (const [id, { all, stops }] of this.#people)
      if (all.isFull(now) && stops.isFull(now)) this.#people.delete(id);
    const bounds = {
      all: new Bucket(LIMITS.personBurst, LIMITS.personPerSecond, now),
      stops: new Bucket(LIMITS.stopBurst, LIMITS.stopsPerSecond, now),
    };
    this.#people.set(person, bounds);
    return bounds;
  }
}
