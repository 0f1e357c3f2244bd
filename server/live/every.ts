import type { Timers } from "../clock.ts";

/** Runs something again and again, first after `ms` milliseconds. The answer ends that. */
export function every(timers: Timers, ms: number, run: () => void): () => void {
  let stop = timers.after(ms, again);
  function again() {
    // Armed first: what is run may be what ends it.
    stop = timers.after(ms, again);
    run();
  }
  return () => stop();
}
