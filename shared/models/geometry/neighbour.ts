import type { StandNeighbour } from "../../protocol/neighbours.ts";
import { inUnit } from "../units.ts";
import type { Point } from "./polygon.ts";
import { polygonFromRamp } from "./pose.ts";

/**
 * Returns the ground that a neighbour takes up, in the aircraft's own metres: a square as wide as the neighbour, with
 * its near side across the line of sight from the nose at the given distance. A neighbour that is deeper than wide
 * extends beyond it.
 */
export function outlineOf(near: StandNeighbour, headingDeg: number): Point[] {
  const distance = inUnit(near.distance, "m");
  const across = inUnit(near.across, "m");
  const bearing = (near.bearingDeg * Math.PI) / 180;
  const [east, north] = [Math.sin(bearing), Math.cos(bearing)];
  const corner = (out: number, side: number): Point => ({
    x: (distance + out) * east + side * north,
    y: (distance + out) * north - side * east,
  });
  const half = across / 2;
  const ramp = [corner(0, -half), corner(0, half), corner(across, half), corner(across, -half)];
  return polygonFromRamp(ramp, { east: 0, north: 0, headingDeg });
}
