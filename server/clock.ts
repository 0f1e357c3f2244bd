/** Server milliseconds since 1970: the only time that decisions use. It never goes behind a recorded event. */
export interface Clock {
  now(): number;
}

/** Runs a function after a delay. Returns a function that cancels it. */
export interface Timers {
  after(ms: number, run: () => void): () => void;
}

export const systemTimers: Timers = {
  after(ms, run) {
    // Node fires at once for a delay above this limit. Wake early instead: the caller checks the time again.
    const timer = setTimeout(run, Math.min(Math.max(0, ms), 2_147_483_647));
    return () => clearTimeout(timer);
  },
};

/** The machine's two clocks: the wall clock, which people and time servers set, and a monotonic one. */
export interface MachineClocks {
  /** Milliseconds since 1970. */
  wall(): number;
  /** Milliseconds from an arbitrary start. */
  steady(): number;
}

export const machineClocks: MachineClocks = { wall: () => Date.now(), steady: () => performance.now() };

/** A difference between wall and steady clock above this means that somebody set the wall clock. Milliseconds. */
const STEP_MS = 1_000;

/**
 * Reads the wall clock once and then follows the steady clock, so that setting the wall clock does not silently move
 * a deadline. `step()` reports when it was set.
 */
export class ServerClock implements Clock {
  readonly #machine: MachineClocks;
  /** Server time minus steady time. */
  #offset: number;
  /** Wall time minus steady time at the last check without a step. */
  #wallOffset: number;
  #newest: number;

  /**
   * @param newest server time of the newest recorded event: time continues from there when the wall clock is behind
   * it
   */
  constructor(machine: MachineClocks, newest: number) {
    this.#machine = machine;
    this.#newest = newest;
    this.#wallOffset = machine.wall() - machine.steady();
    this.#offset = Math.max(machine.wall(), newest) - machine.steady();
  }

  now(): number {
    return Math.floor(this.#machine.steady() + this.#offset);
  }

  /** Tells the clock that an event was recorded at this server time. */
  recorded(at: number): void {
    if (at > this.#newest) this.#newest = at;
  }

  /**
   * Returns the milliseconds by which the wall clock was set since the last call; null when it was not. Resets the
   * reference time.
   */
  step(): number | null {
    const wallOffset = this.#machine.wall() - this.#machine.steady();
    const by = wallOffset - this.#wallOffset;
    if (Math.abs(by) <= STEP_MS) return null;
    this.#wallOffset = wallOffset;
    this.#offset = Math.max(this.#machine.wall(), this.#newest) - this.#machine.steady();
    return Math.round(by);
  }
}
