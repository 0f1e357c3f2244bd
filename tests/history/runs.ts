import { Chance } from "../sim/chance.ts";

/** Returns a source of standard normal values from a seed, by Box and Muller (1958). */
export function normals(seed: number): () => number {
  const chance = new Chance(seed);
  return () => Math.sqrt(-2 * Math.log(1 - chance.next())) * Math.cos(2 * Math.PI * chance.next());
}

/** A run is first looked through for as many values as this, and then for twice as many again and again. */
const FIRST_LOOK = 64;

/**
 * Returns the average number of values to a signal. `signal` gives the index of the first one, or null. It is asked about
 * more and more of a run, because most runs end long before the longest.
 */
export function averageRun(
  { seed, runs, longest, shift = 0 }: { seed: number; runs: number; longest: number; shift?: number },
  signal: (values: number[]) => number | null,
): number {
  const next = normals(seed);
  let sum = 0;
  for (let run = 0; run < runs; run += 1) {
    const values: number[] = [];
    let found: number | null = null;
    for (let upTo = FIRST_LOOK; found === null && values.length < longest; upTo *= 2) {
      while (values.length < Math.min(upTo, longest)) values.push(next() + shift);
      found = signal(values);
    }
    sum += (found ?? longest - 1) + 1;
  }
  return sum / runs;
}
