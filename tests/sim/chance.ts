/**
 * A stream of random numbers from a seed: the same seed gives the same stream (mulberry32, public domain by T.
 * Ettinger).
 */
export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** Returns a number in [0, 1). */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  }

  /** Returns a whole number in [0, below). */
  below(below: number): number {
    return Math.floor(this.next() * below);
  }

  is(probability: number): boolean {
    return this.next() < probability;
  }
}
