import { type MachineClocks, ServerClock, type Timers } from "../../server/clock.ts";

export const START = Date.UTC(2026, 5, 1, 9, 0, 0);

/** A machine whose clocks and timers move only by hand. */
export class HandClock implements MachineClocks, Timers {
  #steady = 0;
  #wallAhead = START;
  readonly #waiting = new Set<{ at: number; run: () => void }>();
  readonly clock: ServerClock;

  constructor(newest = 0) {
    this.clock = new ServerClock(this, newest);
  }

  wall(): number {
    return this.#steady + this.#wallAhead;
  }

  steady(): number {
    return this.#steady;
  }

  /** Sets the wall clock, as a person might. */
  setWall(by: number): void {
    this.#wallAhead += by;
  }

  after(ms: number, run: () => void): () => void {
    const timer = { at: this.#steady + Math.max(0, ms), run };
    this.#waiting.add(timer);
    return () => this.#waiting.delete(timer);
  }

  get waiting(): number {
    return this.#waiting.size;
  }

  /** Lets a long time pass at once: what was due in it runs once, at its end. */
  async leap(ms: number): Promise<void> {
    this.#steady += ms;
    await this.pass(0);
  }

  /** Lets time pass. Each due timer runs at its own moment, and `settle` lets its work end. */
  async pass(ms: number): Promise<void> {
    const end = this.#steady + ms;
    for (;;) {
      const next = [...this.#waiting].filter((t) => t.at <= end).sort((a, b) => a.at - b.at)[0];
      if (!next) break;
      this.#waiting.delete(next);
      this.#steady = Math.max(this.#steady, next.at);
      next.run();
      await settle();
    }
    this.#steady = end;
  }
}

/** Waits some turns of the event loop, for work in memory that is under way. No time passes. */
export async function settle(): Promise<void> {
  for (let turn = 0; turn < 10; turn += 1) await new Promise((resolve) => setImmediate(resolve));
}
