/** The crew's time, milliseconds since 1970, and its timers. `after` returns a function that cancels it. */
export interface CrewClock {
  now(): number;
  after(ms: number, run: () => void): () => void;
}

export const wallClock: CrewClock = {
  now: () => Date.now(),
  after(ms, run) {
    const timer = setTimeout(run, Math.max(0, ms));
    return () => clearTimeout(timer);
  },
};
