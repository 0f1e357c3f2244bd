import type { Clock, Timers } from "../clock.ts";

/** Wait after a deadline that changed nothing or could not be recorded, to avoid a busy loop. Milliseconds. */
const AGAIN_MS = 1_000;

/** One timer per session, for the next moment at which time alone changes the session. */
export class Deadlines {
  readonly #clock: Clock;
  readonly #timers: Timers;
  readonly #due: (session: string, at: number) => void;
  readonly #cancel = new Map<string, () => void>();

  constructor(clock: Clock, timers: Timers, due: (session: string, at: number) => void) {
    this.#clock = clock;
    this.#timers = timers;
    this.#due = due;
  }

  /** Sets the session's timer to `at`, server milliseconds; null clears it. */
  set(session: string, at: number | null): void {
    this.clear(session);
    if (at !== null) this.#wait(session, at, at - this.#clock.now());
  }

  /** Sets the timer again after a deadline at which nothing could be done. */
  again(session: string, at: number | null): void {
    this.clear(session);
    if (at !== null) this.#wait(session, at, Math.max(AGAIN_MS, at - this.#clock.now()));
  }

  clear(session: string): void {
    this.#cancel.get(session)?.();
    this.#cancel.delete(session);
  }

  clearAll(): void {
    for (const cancel of this.#cancel.values()) cancel();
    this.#cancel.clear();
  }

  #wait(session: string, at: number, ms: number): void {
    const cancel = this.#timers.after(ms, () => {
      this.#cancel.delete(session);
      this.#due(session, at);
    });
    this.#cancel.set(session, cancel);
  }
}
