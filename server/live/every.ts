import type { Timers } from "../clock.ts";

/** Runs `run` every `ms` milliseconds, first after `ms`. Returns a function that stops it. */
export function every(timers: Timers, ms: number, run: () => void): () => void {
  let stop = timers.after(ms, again);
  function again() {
    // Schedule the next run first, because `run` may call stop.
    stop = timers.after(ms, again);
    run();
  }
  return () => stop();
}
