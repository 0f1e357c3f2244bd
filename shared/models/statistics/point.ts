/** A pair observed together. */
export interface Pair {
  x: number;
  y: number;
}
