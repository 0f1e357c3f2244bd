/** The time a crew lives by, milliseconds since 1970, and a way to be woken; the answer of `after` takes it back. */
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
