import Flatten from "@flatten-js/core";

/**
 * A place in metres. On an aircraft: x aft of the nose, y to starboard of the centre line. On a ramp: x and y of the
 * ramp's own plan.
 */
export interface Point {
  x: number;
  y: number;
}

/** Corners of a simple polygon in order, either way round, the first not repeated. At least three, not in line. */
export type Polygon = readonly Point[];

/** Shortest distance between two polygons, metres; 0 when they meet, overlap or one holds the other. */
export function gap(a: Polygon, b: Polygon): number {
  if (overlap(a, b)) return 0;
  return faces(a).distanceTo(faces(b))[0];
}

/** True when two polygons share any point, an edge or a corner included. */
export function overlap(a: Polygon, b: Polygon): boolean {
  const [p, q] = [faces(a), faces(b)];
  return p.intersect(q).length > 0 || holds(a, b[0]) || holds(b, a[0]);
}

/** True when a point lies within a polygon or on its edge. */
export function holds(polygon: Polygon, point: Point | undefined): boolean {
  return point !== undefined && faces(polygon).contains(Flatten.point(point.x, point.y));
}

/** Shortest distance from a point to a polygon, metres; 0 within it. */
export function gapToPoint(polygon: Polygon, point: Point): number {
  if (holds(polygon, point)) return 0;
  return Flatten.point(point.x, point.y).distanceTo(faces(polygon))[0];
}

/** Shortest distance from a line between two points to a polygon, metres; 0 when it touches or lies within. */
export function gapToLine(polygon: Polygon, a: Point, b: Point): number {
  if (holds(polygon, a)) return 0;
  return Flatten.segment(Flatten.point(a.x, a.y), Flatten.point(b.x, b.y)).distanceTo(faces(polygon))[0];
}

function faces(polygon: Polygon): Flatten.Polygon {
  return new Flatten.Polygon(polygon.map((p) => Flatten.point(p.x, p.y)));
}
