import type { AircraftType } from "../../../shared/types/schema.ts";
import type { Point } from "./geometry.ts";

/** The stand to scale, in the aircraft's metres: x aft of the nose, y to starboard. Words ready made. */
export interface StandView {
  type: AircraftType;
  /** Ground each propeller sweeps with its margin; hatched where it turns. */
  arcs: { n: number; turning: boolean; corners: readonly Point[] }[];
  /** Ground kept clear behind each engine to be started. */
  behind: { n: number; corners: readonly Point[] }[];
  /** The guard's way, from start to place; empty where there is none to walk. */
  walk: readonly Point[];
  /** Where the guard stands now. */
  guard: Point | null;
  near: { name: string; tooNear: boolean; corners: readonly Point[] }[];
}
