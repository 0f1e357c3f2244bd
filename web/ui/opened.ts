import { useState, useSyncExternalStore } from "react";

/**
 * Holds the sheet that is open over a page, or null. The page makes it and does not read it: only the component that
 * draws the sheet is drawn again when it opens or closes, so that a touch never waits for the page below.
 */
export class Opened<T> {
  #now: T | null = null;
  readonly #readers = new Set<() => void>();

  /** Returns what is open now. */
  readonly now = (): T | null => this.#now;

  readonly open = (next: T | null): void => {
    this.#now = next;
    for (const reader of this.#readers) reader();
  };

  readonly close = (): void => this.open(null);

  /** Calls `reader` after each change. Returns the function that ends this. */
  readonly subscribe = (reader: () => void): (() => void) => {
    this.#readers.add(reader);
    return () => this.#readers.delete(reader);
  };
}

/** Returns the holder of one page, the same as long as the page is shown. */
export const useOpened = <T>(): Opened<T> => useState(() => new Opened<T>())[0];

/** Returns what is open, and draws the component again when that changes. */
export const useNowOpen = <T>({ subscribe, now }: Opened<T>): T | null =>
  useSyncExternalStore(subscribe, now, now);
