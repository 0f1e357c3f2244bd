import type { World } from "./world.ts";

/** Parameters of a scripted crew. The same script on the same events plays the same. */
export interface Script {
  seed: number;
  /** Speed as a multiple of human pace. */
  pace: number;
  /** The cart's name, part of the ground power signals. */
  cart: string;
  /** The simulated aircraft. Absent: every figure is pretended, and good. */
  world?: World;
}
