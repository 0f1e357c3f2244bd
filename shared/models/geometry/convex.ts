import type { Point, Polygon } from "./polygon.ts";

/** A point nearer than this to an edge counts as on it, metres. */
const ON_EDGE = 1e-7;

/** One side of a convex polygon. The depth of a point inside it is nx x + ny y + c, metres. */
interface Side {
  nx: number;
  ny: number;
  c: number;
}

/** A convex polygon, prepared for `inside` and `crosses`. */
export interface Convex {
  corners: Polygon;
  sides: readonly Side[];
}

/** Returns the polygon prepared; null when it is not convex or has no area. Corners either way round. */
export function convex(corners: Polygon): Convex | null {
  const edges = corners.map((a, i) => [a, corners[(i + 1) % corners.length] ?? a] as const);
  const twiceArea = edges.reduce((sum, [a, b]) => sum + a.x * b.y - b.x * a.y, 0);
  if (corners.length < 3 || Math.abs(twiceArea) < ON_EDGE) return null;
  const way = Math.sign(twiceArea);
  const sides = edges.map(([a, b]) => {
    const length = Math.hypot(b.x - a.x, b.y - a.y) * way;
    const [nx, ny] = [-(b.y - a.y) / length, (b.x - a.x) / length];
    return { nx, ny, c: -(nx * a.x + ny * a.y) };
  });
  const bulges = corners.every((p) => sides.every((s) => depth(s, p) >= -ON_EDGE));
  return bulges && sides.every((s) => Number.isFinite(s.c)) ? { corners, sides } : null;
}

/** Returns true when a point lies inside. The edge does not count. */
export function inside({ sides }: Convex, p: Point): boolean {
  return sides.every((s) => depth(s, p) > ON_EDGE);
}

/**
 * Returns true when the line from a to b runs through the inside. A line along an edge or over a corner does not count.
 */
export function crosses({ sides }: Convex, a: Point, b: Point): boolean {
  let [from, to] = [0, 1];
  for (const side of sides) {
    const start = depth(side, a) - ON_EDGE;
    const end = depth(side, b) - ON_EDGE;
    if (start <= 0 && end <= 0) return false;
    if (start <= 0) from = Math.max(from, start / (start - end));
    else if (end <= 0) to = Math.min(to, start / (start - end));
  }
  return to > from;
}

function depth({ nx, ny, c }: Side, p: Point): number {
  return nx * p.x + ny * p.y + c;
}
