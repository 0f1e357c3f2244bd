/** Panels that may go on in one turn of the event loop. */
const PER_TURN = 4;

/**
 * Lets panels that arrive go on a few in each turn of the event loop, first come, first served. A crowd that arrives at
 * once would otherwise be served in one turn, and a hold of somebody who was there before would wait for all of it.
 */
export class Turnstile {
  readonly #waiting: (() => void)[] = [];

  /** Resolves when it is this panel's turn. */
  enter(): Promise<void> {
    return new Promise((go) => {
      this.#waiting.push(go);
      if (this.#waiting.length === 1) setImmediate(this.#turn);
    });
  }

  readonly #turn = (): void => {
    for (const go of this.#waiting.splice(0, PER_TURN)) go();
    if (this.#waiting.length > 0) setImmediate(this.#turn);
  };
}
