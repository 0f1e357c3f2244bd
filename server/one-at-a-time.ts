/** Runs pieces of work one after another, whether those before them succeed or not. */
export class OneAtATime {
  #last: Promise<unknown> = Promise.resolve();

  /** Resolves to what the work gives; rejects as it does. */
  run<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#last.then(work);
    this.#last = turn.catch(() => undefined);
    return turn;
  }
}

/** Runs pieces of work of the same key one after another. A key whose work is done is forgotten. */
export class OneAtATimeByKey {
  readonly #last = new Map<string, Promise<unknown>>();

  /** Resolves to what the work gives; rejects as it does. */
  run<T>(key: string, work: () => Promise<T>): Promise<T> {
    const turn = (this.#last.get(key) ?? Promise.resolve()).then(work);
    const done: Promise<unknown> = turn
      .catch(() => undefined)
      .then(() => {
        if (this.#last.get(key) === done) this.#last.delete(key);
      });
    this.#last.set(key, done);
    return turn;
  }
}
