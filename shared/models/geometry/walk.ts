import { found, type Outcome, refused } from "../outcome.ts";
import { type Convex, convex, crosses, inside } from "./convex.ts";
import type { Point, Polygon } from "./polygon.ts";

/** A way on foot: its corners from start to end, and its length, metres. */
export interface Walk {
  points: Point[];
  length: number;
}

/**
 * Shortest walk between two points that enters no obstacle: the least path of the visibility graph over start, end
 * and the obstacles' corners (Lozano-Perez and Wesley 1979), by Dijkstra. Obstacles are convex polygons and may
 * overlap; edges and corners may be walked along, so the margin belongs in the obstacle. Refused when an end stands
 * inside one, when one is not convex, or when there is no way.
 */
export function shortestWalk(start: Point, end: Point, obstacles: readonly Polygon[]): Outcome<Walk> {
  const blocks: Convex[] = [];
  for (const polygon of obstacles) {
    const block = convex(polygon);
    if (!block) return refused("an obstacle is not a convex polygon");
    blocks.push(block);
  }
  if (blocks.some((b) => inside(b, start))) return refused("the walk begins inside an obstacle");
  if (blocks.some((b) => inside(b, end))) return refused("the walk ends inside an obstacle");
  const clear = (a: Point, b: Point) => !blocks.some((block) => crosses(block, a, b));
  if (clear(start, end)) return found({ points: [start, end], length: distance(start, end) });
  const corners = blocks.flatMap((b) => b.corners).filter((p) => !blocks.some((b) => inside(b, p)));
  const points = leastPath([start, ...corners, end], clear);
  return points ? found(points) : refused("there is no way round the obstacles");
}

/** Dijkstra from the first node to the last; edges are looked at only from nodes that are reached. */
function leastPath(nodes: readonly Point[], clear: (a: Point, b: Point) => boolean): Walk | null {
  const reached = nodes.map((_, i) => (i === 0 ? 0 : Number.POSITIVE_INFINITY));
  const from = nodes.map(() => -1);
  const open = new Set(nodes.keys());
  const goal = nodes.length - 1;
  while (open.size > 0) {
    const at = [...open].reduce((best, i) => ((reached[i] ?? 0) < (reached[best] ?? 0) ? i : best));
    const [here, soFar] = [nodes[at], reached[at]];
    if (!here || soFar === undefined || soFar === Number.POSITIVE_INFINITY) return null;
    if (at === goal) return { points: traceBack(nodes, from, goal), length: soFar };
    open.delete(at);
    for (const next of open) {
      const there = nodes[next];
      if (!there) continue;
      const total = soFar + distance(here, there);
      if (total < (reached[next] ?? 0) && clear(here, there)) {
        reached[next] = total;
        from[next] = at;
      }
    }
  }
  return null;
}

function traceBack(nodes: readonly Point[], from: readonly number[], goal: number): Point[] {
  const points: Point[] = [];
  for (let at = goal; at >= 0; at = from[at] ?? -1) {
    const node = nodes[at];
    if (node) points.unshift(node);
  }
  return points;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
