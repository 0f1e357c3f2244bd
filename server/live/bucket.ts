/** A token bucket: holds `burst` tokens and earns `perSecond` back. Times are milliseconds of the server's clock. */
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

  /** Takes one token. Returns false when there is none. */
  take(now: number): boolean {
    this.#earn(now);
    if (this.#tokens < 1) return false;
    this.#tokens -= 1;
    this.#dry = false;
    return true;
  }

  /** Returns true when no token is left. */
  isEmpty(now: number): boolean {
    this.#earn(now);
    return this.#tokens < 1;
  }

  /** Returns true when every token is back. */
  isFull(now: number): boolean {
    this.#earn(now);
    return this.#tokens === this.#burst;
  }

  /** Returns true only on the first call since a token was last taken, so that a flood writes one log line. */
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
