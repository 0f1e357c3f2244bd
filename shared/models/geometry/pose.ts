import type { Point, Polygon } from "./polygon.ts";

/** Place of an aircraft on a ramp: its nose, in metres east and north of the ramp's reference mark, and its heading. */
export interface Pose {
  east: number;
  north: number;
  headingDeg: number;
}

/** Converts a point of the aircraft (x aft of the nose, y to starboard) to the ramp (x east, y north), metres. */
export function onRamp({ x, y }: Point, pose: Pose): Point {
  const heading = (pose.headingDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(heading), Math.cos(heading)];
  return { x: pose.east - x * sin + y * cos, y: pose.north - x * cos - y * sin };
}

/** Converts a polygon of the aircraft to the ramp. */
export function polygonOnRamp(polygon: Polygon, pose: Pose): Point[] {
  return polygon.map((p) => onRamp(p, pose));
}

/** Converts a polygon of the ramp to the aircraft that stands there: the inverse of `polygonOnRamp`. */
export function polygonFromRamp(polygon: Polygon, pose: Pose): Point[] {
  const heading = (pose.headingDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(heading), Math.cos(heading)];
  return polygon.map((p) => {
    const [east, north] = [p.x - pose.east, p.y - pose.north];
    return { x: -east * sin - north * cos, y: east * cos - north * sin };
  });
}
