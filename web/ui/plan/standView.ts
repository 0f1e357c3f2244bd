import type { AircraftType } from "../../../shared/types/schema.ts";
import type { Point } from "./geometry.ts";

/** The stand to scale, in the aircraft's metres: x aft of the nose, y to starboard. Words are ready for display. */
export interface StandView {
  type: AircraftType;
  /** Ground that each propeller sweeps, with its margin; hatched when it turns, or when it is planned to turn. */
  arcs: { n: number; turning: boolean; corners: readonly Point[] }[];
  /** Ground kept clear behind each engine to be started. */
  behind: { n: number; metres: number; corners: readonly Point[] }[];
  /** The guard's path from start to end; empty when there is none. */
  walk: readonly Point[];
  /** The guard's present position. */
  guard: Point | null;
  /** Distances in metres; null where the type gives no distance to compare with. */
  near: { name: string; tooNear: boolean; metres: number | null; corners: readonly Point[] }[];
}
