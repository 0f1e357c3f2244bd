import { notFinite } from "../outcome.ts";

/** A pair observed together. */
export interface Pair {
  x: number;
  y: number;
}

/** Returns words for the first value of the pairs that is no finite figure, with its place; null when none is. */
export function badPair(pairs: readonly Pair[]): string | null {
  const [xs, ys] = [pairs.map((p) => p.x), pairs.map((p) => p.y)];
  return notFinite("x", xs) ?? notFinite("y", ys);
}
