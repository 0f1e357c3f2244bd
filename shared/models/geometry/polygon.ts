import Flatten from "@flatten-js/core";

/**
 * A place in metres. On an aircraft: x aft of the nose, y to starboard of the centre line. On a ramp: x and y of the
 * ramp's own plan.
 */
export interface Point {
  x: number;
  y: number;
}

/**
 * Corners of a simple polygon in order, either way round; the first is not repeated. At least three, not in one line.
 */
export type Polygon = readonly Point[];

/** Returns the shortest distance between two polygons, metres; 0 when they meet, overlap or one contains the other. */
export function gap(a: Polygon, b: Polygon): number {
  if (overlap(a, b)) return 0;
  return faces(a).distanceTo(faces(b))[0];
}

/** Returns true when two polygons share any point, an edge or a corner included. */
export function overlap(a: Polygon, b: Polygon): boolean {
  const [p, q] = [faces(a), faces(b)];
  return p.intersect(q).length > 0 || holds(a, b[0]) || holds(b, a[0]);
}

/** A point nearer than this to an edge is on it, metres. */
const ON_EDGE = 1e-9;

/** Returns true when a point lies within a polygon or on its edge: a ray to one side crosses an odd number of edges. */
export function holds(polygon: Polygon, point: Point | undefined): boolean {
  if (!point) return false;
  let within = false;
  let a = polygon.at(-1);
  for (const b of polygon) {
    if (a && distanceToSegment(point, a, b) <= ON_EDGE) return true;
    if (
      a &&
      a.y > point.y !== b.y > point.y &&
      point.x < a.x + ((point.y - a.y) / (b.y - a.y)) * (b.x - a.x)
    ) {
      within = !within;
    }
    a = b;
  }
  return within;
}

/** Returns the distance from a point to the segment between two others. */
export function distanceToSegment(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : ((p.x - a.x) * dx + (p.y - a.y) * dy) / length2;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/** Returns the shortest distance from a point to a polygon, metres; 0 within it. */
export function gapToPoint(polygon: Polygon, point: Point): number {
  if (holds(polygon, point)) return 0;
  return Flatten.point(point.x, point.y).distanceTo(faces(polygon))[0];
}

/** Returns the shortest distance from a segment to a polygon, metres; 0 when it touches the polygon or lies within. */
export function gapToLine(polygon: Polygon, a: Point, b: Point): number {
  if (holds(polygon, a)) return 0;
  return Flatten.segment(Flatten.point(a.x, a.y), Flatten.point(b.x, b.y)).distanceTo(faces(polygon))[0];
}

function faces(polygon: Polygon): Flatten.Polygon {
  return new Flatten.Polygon(polygon.map((p) => Flatten.point(p.x, p.y)));
}
