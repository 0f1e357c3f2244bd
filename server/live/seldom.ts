import type { Timers } from "../clock.ts";

/** Returns a function that runs `run` at once, or, when it ran less than `ms` ago, once after that time. */
export function seldom(timers: Timers, ms: number, run: () => void): () => void {
  let resting = false;
  let wanted = false;
  const rested = () => {
    resting = false;
    if (wanted) call();
  };
  function call() {
    wanted = resting;
    if (resting) return;
    resting = true;
    timers.after(ms, rested);
    run();
  }
  return call;
}
