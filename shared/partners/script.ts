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
  /** How this aircraft's parts have worn; absent: as new. */
  wear?: Wear;
}

/** What a pretended aircraft shows otherwise than a new one, and the day's air. By engine number. */
export interface Wear {
  /** Time constant with which oil pressure rises, seconds. */
  oilS?: Readonly<Record<number, number>>;
  /** How much longer the engine is cranked before it catches, as a multiple. */
  crank?: Readonly<Record<number, number>>;
  /** Volts that the source falls further under a starter's load. */
  sagV?: number;
  airC?: number;
}
