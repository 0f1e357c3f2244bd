import { found, type Outcome, refused } from "../outcome.ts";
import { type Convex, convex, crosses, inside } from "./convex.ts";
import type { Point, Polygon } from "./polygon.ts";

/** A way on foot: its corners from start to end, and its length, metres. */
export interface Walk {
  points: Point[];
  length: number;
}

/**
 * Returns the shortest walk between two points that enters no obstacle: the least path of the visibility graph over
 * start, end and the obstacles' corners (Lozano-Perez and Wesley 1979), by Dijkstra. Obstacles are convex polygons and
 * may overlap. The walk may follow edges and touch corners, so a margin must be part of the obstacle. Refused when an
 * end stands inside an obstacle, when an obstacle is not convex, or when there is no way.
 */
export function shortestWalk(start: Point, end: Point, obstacles: readonly Polygon[]): Outcome<Walk> {
  const blocks: Convex[] = [];
  for (const polygon of obstacles) {
    const block = convex(polygon);
    if (!block) return refused("an obstacle is not a convex polygon");
    blocks.push(block);
  }
  return walkAround(start, end, blocks);
}

/**
 * Returns `shortestWalk` past obstacles that were prepared before, for repeated questions. It plans only around
 * obstacles that the walk meets: a shortest walk around some obstacles that enters none of the others is the shortest
 * around all.
 */
export function walkAround(start: Point, end: Point, blocks: readonly Convex[]): Outcome<Walk> {
  if (blocks.some((b) => inside(b, start))) return refused("the walk begins inside an obstacle");
  if (blocks.some((b) => inside(b, end))) return refused("the walk ends inside an obstacle");
  let met: Convex[] = [];
  let walk: Walk | null = { points: [start, end], length: distance(start, end) };
  while (walk) {
    const { points } = walk;
    const entered = blocks.filter((b) => points.some((p, i) => i > 0 && crosses(b, points[i - 1] ?? p, p)));
    if (entered.length === 0) return found(walk);
    met = [...met, ...entered];
    const round: readonly Convex[] = met;
    const corners = round.flatMap((b) => b.corners).filter((p) => !round.some((b) => inside(b, p)));
    walk = leastPath([start, ...corners, end], (a, b) => !round.some((block) => crosses(block, a, b)));
  }
  return refused("there is no way round the obstacles");
}

/**
 * Returns the shortest path from the first node to the last by Dijkstra. It tests an edge only if that edge would
 * shorten a path.
 */
function leastPath(nodes: readonly Point[], clear: (a: Point, b: Point) => boolean): Walk | null {
  const goal = nodes.length - 1;
  const reached = new Float64Array(nodes.length).fill(Number.POSITIVE_INFINITY);
  const from = new Int16Array(nodes.length).fill(-1);
  const closed = new Uint8Array(nodes.length);
  reached[0] = 0;
  for (;;) {
    let at = -1;
    let soFar = Number.POSITIVE_INFINITY;
    for (let i = 0; i <= goal; i++) {
      const total = reached[i] ?? soFar;
      if (!closed[i] && total < soFar) {
        at = i;
        soFar = total;
      }
    }
    const here = nodes[at];
    if (!here) return null;
    if (at === goal) return { points: traceBack(nodes, from, goal), length: soFar };
    closed[at] = 1;
    for (let next = 1; next <= goal; next++) {
      const there = nodes[next];
      if (closed[next] || !there) continue;
      const total = soFar + distance(here, there);
      if (total < (reached[next] ?? 0) && clear(here, there)) {
        reached[next] = total;
        from[next] = at;
      }
    }
  }
}

function traceBack(nodes: readonly Point[], from: Int16Array, goal: number): Point[] {
  const points: Point[] = [];
  for (let at = goal; at >= 0; at = from[at] ?? -1) {
    const node = nodes[at];
    if (node) points.unshift(node);
  }
  return points;
}

function distance(a: Point, b: Point): number {
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);
}
