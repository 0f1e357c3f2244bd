import { Chance } from "../sim/chance.ts";

/** Returns a source of standard normal values from a seed, by Box and Muller (1958). */
export function normals(seed: number): () => number {
  const chance = new Chance(seed);
  return () => Math.sqrt(-2 * Math.log(1 - chance.next())) * Math.cos(2 * Math.PI * chance.next());
}

/** Returns the average number of values to a signal. `signal` gives the index of the first one, or null. */
export function averageRun(
  { seed, runs, longest, shift = 0 }: { seed: number; runs: number; longest: number; shift?: number },
  signal: (values: number[]) => number | null,
): number {
  const next = normals(seed);
  let sum = 0;
  for (let run = 0; run < runs; run += 1) {
    const values = Array.from({ length: longest }, () => next() + shift);
    sum += (signal(values) ?? longest - 1) + 1;
  }
  return sum / runs;
}
