import type { AircraftType } from "../../../shared/types/schema.ts";

/** What an engine's place on the plan shows. Shapes and words tell the states apart; colour only adds. */
export interface EngineMark {
  n: number;
  x: number;
  y: number;
  /** One word of state. */
  word: string;
  shape: "none" | "ring" | "asked" | "clear" | "turning" | "stable" | "stopped" | "fire";
  /** A running count beside the word, e.g. `14 s`. */
  count: string | null;
  /** The count is past its limit. */
  over: boolean;
  /** The arc is drawn as swept. */
  turning: boolean;
  /** This is the engine what is asked is about. */
  asked: boolean;
}

/** Everything drawn on the plan; words ready made. */
export interface PlanView {
  type: AircraftType;
  engines: EngineMark[];
  guardAt: number | null;
  chocks: "in" | "out" | "unknown";
  power: { is: "on" | "off" | "unknown"; words: string };
  /** The plan has a cart at all. */
  cart: boolean;
}
