/** A token bucket: `burst` at once, `perSecond` earned back. Times are server milliseconds. */
export class Bucket {
  readonly #burst: number;
  readonly #perSecond: number;
  #tokens: number;
  #at: number;
  #dry = false;

  constructor(burst: number, perSecond: number, now: number) {
    this.#burst = burst;
    this.#perSecond = perSecond;
    this.#tokens = burst;
    this.#at = now;
  }

  /** Takes one token; false when there is none. */
  take(now: number): boolean {
    this.#earn(now);
    if (this.#tokens < 1) return false;
    this.#tokens -= 1;
    this.#dry = false;
    return true;
  }

  /** Nothing was taken that was not earned back. */
  isFull(now: number): boolean {
    this.#earn(now);
    return this.#tokens === this.#burst;
  }

  /** True once after a token was refused, until one was given again: for one line in a log, not a thousand. */
  justRanDry(): boolean {
    const was = this.#dry;
    this.#dry = true;
    return !was;
  }

  #earn(now: number): void {
    const earned = (Math.max(0, now - this.#at) / 1000) * this.#perSecond;
    this.#tokens = Math.min(this.#burst, this.#tokens + earned);
    this.#at = now;
  }
}
