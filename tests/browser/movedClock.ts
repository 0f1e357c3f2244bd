import { type MachineClocks, systemTimers, type Timers } from "../../server/clock.ts";

interface Waiting {
  /** By the steady clock, in milliseconds. */
  due: number;
  run(): void;
  cancel(): void;
}

/** The machine's own clocks and timers, which a test can move forward. */
export class MovedClock implements MachineClocks, Timers {
  #ahead = 0;
  readonly #waiting = new Set<Waiting>();

  wall(): number {
    return Date.now() + this.#ahead;
  }

  steady(): number {
    return performance.now() + this.#ahead;
  }

  after(ms: number, run: () => void): () => void {
    const waiting: Waiting = { due: this.steady() + Math.max(0, ms), run, cancel() {} };
    this.#waiting.add(waiting);
    this.#arm(waiting);
    return () => {
      waiting.cancel();
      this.#waiting.delete(waiting);
    };
  }

  /** Moves both clocks forward together, so that the server does not take it for a clock that was set. */
  pass(ms: number): void {
    this.#ahead += ms;
    for (const waiting of this.#waiting) this.#arm(waiting);
  }

  #arm(waiting: Waiting): void {
    waiting.cancel();
    waiting.cancel = systemTimers.after(waiting.due - this.steady(), () => {
      this.#waiting.delete(waiting);
      waiting.run();
    });
  }
}
