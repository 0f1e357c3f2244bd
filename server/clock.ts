/** Server milliseconds since 1970: the one time decisions are made with. Never runs backwards past a recorded event. */
export interface Clock {
  now(): number;
}

/** Runs something later; the answer takes it back. */
export interface Timers {
  after(ms: number, run: () => void): () => void;
}

export const systemTimers: Timers = {
  after(ms, run) {
    // A longer wait than Node can hold would fire at once: wake early instead, whoever waits looks again.
    const timer = setTimeout(run, Math.min(Math.max(0, ms), 2_147_483_647));
    return () => clearTimeout(timer);
  },
};

/** The two clocks of the machine: the wall's, which people and time servers set, and one that only runs. */
export interface MachineClocks {
  /** Milliseconds since 1970. */
  wall(): number;
  /** Milliseconds from any beginning. */
  steady(): number;
}

export const machineClocks: MachineClocks = { wall: () => Date.now(), steady: () => performance.now() };

/** How far the wall clock may move against the steady one before it counts as having been set. Milliseconds. */
const STEP_MS = 1_000;

/**
 * Takes the wall's time once and then counts by the steady clock, so that setting the wall clock moves no deadline
 * unseen. `step()` notices when it was set.
 */
export class ServerClock implements Clock {
  readonly #machine: MachineClocks;
  /** Server time minus steady time. */
  #offset: number;
  /** Wall time minus steady time when last looked at and found in order. */
  #wallOffset: number;
  #newest: number;

  /** @param newest server time of the newest recorded event: time goes on from there if the wall clock is behind it */
  constructor(machine: MachineClocks, newest: number) {
    this.#machine = machine;
    this.#newest = newest;
    this.#wallOffset = machine.wall() - machine.steady();
    this.#offset = Math.max(machine.wall(), newest) - machine.steady();
  }

  now(): number {
    return Math.floor(this.#machine.steady() + this.#offset);
  }

  /** An event was recorded at this server time. */
  recorded(at: number): void {
    if (at > this.#newest) this.#newest = at;
  }

  /** Milliseconds by which the wall clock was set since last asked, null if it was not. Takes its time over again. */
  step(): number | null {
    const wallOffset = this.#machine.wall() - this.#machine.steady();
    const by = wallOffset - this.#wallOffset;
    if (Math.abs(by) <= STEP_MS) return null;
    this.#wallOffset = wallOffset;
    this.#offset = Math.max(this.#machine.wall(), this.#newest) - this.#machine.steady();
    return Math.round(by);
  }
}
