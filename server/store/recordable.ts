import type { Timers } from "../clock.ts";
import type { EventStore } from "./events.ts";

/** Interval between looks, and the longest wait for the answer to one. Milliseconds: a panel says within two seconds. */
const LOOK_MS = 1_000;

interface Followed {
  /** Returns true while somebody is to be told: the look writes to the disk. */
  wanted(): boolean;
  /** Called when it became possible or impossible to record. */
  changed(able: boolean): void;
}

/** Looks whether events can be recorded. */
export class Recordable {
  readonly #store: Pick<EventStore, "probe">;
  readonly #timers: Timers;
  #able = true;
  #changed: (able: boolean) => void = () => {};
  #stop: () => void = () => {};

  constructor(store: Pick<EventStore, "probe">, timers: Timers) {
    this.#store = store;
    this.#timers = timers;
  }

  /** The result of the last look. */
  get able(): boolean {
    return this.#able;
  }

  /** Looks every second from now on, so that panels say so whether they are touched or not. */
  follow({ wanted, changed }: Followed): void {
    this.#changed = changed;
    const look = () => {
      this.#stop = this.#timers.after(LOOK_MS, look);
      if (wanted()) void this.check();
    };
    this.#stop = this.#timers.after(LOOK_MS, look);
  }

  /** Looks now. Resolves to false also when the store does not answer in time. */
  async check(): Promise<boolean> {
    const able = await new Promise<boolean>((resolve) => {
      const stop = this.#timers.after(LOOK_MS, () => resolve(false));
      const answer = (is: boolean) => {
        stop();
        resolve(is);
      };
      this.#store.probe().then(
        () => answer(true),
        () => answer(false),
      );
    });
    if (able !== this.#able) {
      this.#able = able;
      this.#changed(able);
    }
    return able;
  }

  /** Stops looking. */
  close(): void {
    this.#stop();
  }
}
