/** A token bucket: `burst` at once, `perSecond` earned back. Times are server milliseconds. */
export class Bucket {
  readonly #burst: number;
  readonly #perSecond: number;
  #tokens: number;
  #at: number;

  constructor(burst: number, perSecond: number, now: number) {
    this.#burst = burst;
    this.#perSecond = perSecond;
    this.#tokens = burst;
    this.#at = now;
  }

  /** Takes one token; false when there is none. */
  take(now: number): boolean {
    const earned = (Math.max(0, now - this.#at) / 1000) * this.#perSecond;
    this.#tokens = Math.min(this.#burst, this.#tokens + earned);
    this.#at = now;
    if (this.#tokens < 1) return false;
    this.#tokens -= 1;
    return true;
  }
}
