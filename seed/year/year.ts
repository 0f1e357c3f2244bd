import { playStart } from "./play.ts";
import { yearStarts } from "./starts.ts";

/** Chance of the demo's year: the same on every server. */
const SEED = 1946;

/** Returns the invented year that ends before `now`, and the program that plays each of its starts. */
export function year(now: number) {
  const starts = yearStarts(now, SEED);
  return {
    starts,
    play: (nth: number, of: Parameters<typeof playStart>[1]) => {
      const start = starts[nth];
      if (!start) throw new Error(`the year has no start ${nth}`);
      return playStart(start, of);
    },
  };
}
