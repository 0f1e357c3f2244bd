import type { AircraftType } from "../../../shared/types/schema.ts";

/** Display of one engine on the plan. Shapes and words distinguish the states; colour only adds to them. */
export interface EngineMark {
  n: number;
  x: number;
  y: number;
  /** The state in one word. */
  word: string;
  shape: "none" | "still" | "asked" | "clear" | "cranking" | "caught" | "stable" | "stopped" | "fire";
  /** A running count beside the word, e.g. `14 s`. */
  count: string | null;
  /** True when the count is past its limit. */
  over: boolean;
  /** True when the arc is drawn as swept. */
  turning: boolean;
  /** True for the engine of the current ask. */
  asked: boolean;
}

/** All data of the plan, words included. */
export interface PlanView {
  type: AircraftType;
  engines: EngineMark[];
  guardAt: number | null;
  chocks: "in" | "out" | "unknown";
  power: { is: "on" | "off" | "unknown"; words: string };
  /** True when the plan shows a ground power cart. */
  cart: boolean;
}
