import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Point, Polygon } from "../../shared/models/geometry/polygon.ts";
import {
  distanceToSegment,
  gap,
  gapToLine,
  gapToPoint,
  holds,
  overlap,
} from "../../shared/models/geometry/polygon.ts";
import { onRamp, polygonFromRamp, polygonOnRamp } from "../../shared/models/geometry/pose.ts";
import { shortestWalk } from "../../shared/models/geometry/walk.ts";
import { jtsEnters, jtsLine, jtsPoint, jtsPolygon } from "./jts.ts";
import { must } from "./must.ts";
import { gridPoint, rectangle, simplePolygon } from "./shapes.ts";

const square: Polygon = [
  { x: 0, y: 0 },
  { x: 10, y: 0 },
  { x: 10, y: 10 },
  { x: 0, y: 10 },
];

describe("polygons", () => {
  it("[MOD-67] (13, 14) is 5 from the 10 by 10 square; a corner, an edge and the middle are within it", () => {
    expect(gapToPoint(square, { x: 13, y: 14 })).toBe(5);
    expect(jtsPolygon(square).distance(jtsPoint({ x: 13, y: 14 }))).toBe(5);
    for (const p of [
      { x: 5, y: 5 },
      { x: 10, y: 5 },
      { x: 0, y: 0 },
    ]) {
      expect(holds(square, p)).toBe(true);
      expect(gapToPoint(square, p)).toBe(0);
    }
  });

  it("[MOD-67] gaps, overlaps and holding equal JTS's on random polygons", () => {
    fc.assert(
      fc.property(simplePolygon, simplePolygon, gridPoint, gridPoint, (a, b, p, q) => {
        const [ja, jb] = [jtsPolygon(a), jtsPolygon(b)];
        expect(ja.isValid()).toBe(true);
        expect(gap(a, b)).toBeCloseTo(ja.distance(jb), 6);
        // Within rounding, one library may see a touch that the other does not.
        if (ja.distance(jb) > 1e-9 || ja.relate(jb, "T********"))
          expect(overlap(a, b)).toBe(ja.intersects(jb));
        expect(gapToPoint(a, p)).toBeCloseTo(ja.distance(jtsPoint(p)), 6);
        if (p.x !== q.x || p.y !== q.y)
          expect(gapToLine(a, p, q)).toBeCloseTo(ja.distance(jtsLine([p, q])), 6);
      }),
      { seed: 67, numRuns: 80 },
    );
  });

  it("[MOD-67] one polygon within another leaves no gap", () => {
    const small = square.map((p) => ({ x: 4 + p.x / 10, y: 4 + p.y / 10 }));
    expect(gap(square, small)).toBe(0);
    expect(gap(small, square)).toBe(0);
  });

  it("[MOD-67] point to segment: (0, 5) and (6, 4) are 5 from (-3, 0) to (3, 0); equals JTS", () => {
    const [a, b] = [
      { x: -3, y: 0 },
      { x: 3, y: 0 },
    ];
    expect(distanceToSegment({ x: 0, y: 5 }, a, b)).toBe(5);
    expect(distanceToSegment({ x: 6, y: 4 }, a, b)).toBe(5);
    expect(distanceToSegment({ x: 3, y: 4 }, b, b)).toBe(4);
    fc.assert(
      fc.property(gridPoint, gridPoint, gridPoint, (p, q, r) => {
        if (q.x === r.x && q.y === r.y) return;
        expect(distanceToSegment(p, q, r)).toBeCloseTo(jtsPoint(p).distance(jtsLine([q, r])), 9);
      }),
      { seed: 68 },
    );
  });
});

describe("an aircraft on a ramp", () => {
  it("[MOD-67] heading north aft is south and starboard east; heading east aft is west and starboard south", () => {
    const p = { x: 10, y: 3 };
    const close = (x: number, y: number) => ({ x: expect.closeTo(x, 9), y: expect.closeTo(y, 9) });
    expect(onRamp(p, { east: 100, north: 50, headingDeg: 0 })).toEqual(close(103, 40));
    expect(onRamp(p, { east: 100, north: 50, headingDeg: 90 })).toEqual(close(90, 47));
  });

  it("[MOD-67] a turn and its inverse change no point and no distance", () => {
    const pose = fc.record({
      east: fc.integer({ min: -99, max: 99 }),
      north: fc.integer({ min: -99, max: 99 }),
      headingDeg: fc.integer({ min: 0, max: 359 }),
    });
    fc.assert(
      fc.property(simplePolygon, simplePolygon, pose, (a, b, at) => {
        const back = polygonFromRamp(polygonOnRamp(a, at), at);
        expect(back).toEqual(a.map((p) => ({ x: expect.closeTo(p.x, 8), y: expect.closeTo(p.y, 8) })));
        expect(gap(polygonOnRamp(a, at), polygonOnRamp(b, at))).toBeCloseTo(gap(a, b), 6);
      }),
      { seed: 69 },
    );
  });
});

/**
 * Returns the shortest way by another method: joins all corners between which JTS sees no inside crossed, then Floyd
 * and Warshall.
 */
function slowWalk(start: Point, end: Point, obstacles: readonly Polygon[]): number {
  const nodes = [start, end, ...obstacles.flat()];
  const d = nodes.map((a) =>
    nodes.map((b) => {
      if (a === b) return 0;
      const met = a.x === b.x && a.y === b.y;
      if (met) return 0;
      return obstacles.some((o) => jtsEnters([a, b], o))
        ? Number.POSITIVE_INFINITY
        : Math.hypot(a.x - b.x, a.y - b.y);
    }),
  );
  nodes.forEach((_, k) => {
    for (const row of d) {
      row.forEach((best, j) => {
        row[j] = Math.min(best, (row[k] ?? 0) + (d[k]?.[j] ?? 0));
      });
    }
  });
  return d[0]?.[1] ?? Number.NaN;
}

describe("shortest walk", () => {
  it("[MOD-72] is straight if nothing is in the way, and otherwise goes around the nearer corner", () => {
    const [a, b] = [
      { x: -5, y: 5 },
      { x: 15, y: 5 },
    ];
    expect(must(shortestWalk(a, b, []))).toEqual({ points: [a, b], length: 20 });
    const round = must(shortestWalk({ x: -5, y: 8 }, { x: 15, y: 8 }, [square]));
    expect(round.points.slice(1, -1)).toEqual([
      { x: 0, y: 10 },
      { x: 10, y: 10 },
    ]);
    expect(round.length).toBeCloseTo(10 + 2 * Math.hypot(5, 2), 9);
    // A way along an edge is allowed, because the margin is part of the obstacle.
    expect(must(shortestWalk({ x: -5, y: 10 }, { x: 15, y: 10 }, [square])).length).toBe(20);
  });

  it("[MOD-72] equals a second method on random rectangles, enters none of them, and is never shorter than the straight line", () => {
    fc.assert(
      fc.property(fc.array(rectangle, { maxLength: 3 }), gridPoint, gridPoint, (obstacles, start, end) => {
        const walk = shortestWalk(start, end, obstacles);
        const within = (p: Point) => obstacles.some((o) => jtsPolygon(o).relate(jtsPoint(p), "T*****FF*"));
        if (within(start) || within(end)) {
          expect(walk.ok).toBe(false);
          return;
        }
        const slow = slowWalk(start, end, obstacles);
        if (slow === Number.POSITIVE_INFINITY) {
          expect(walk.ok).toBe(false);
          return;
        }
        const { points, length } = must(walk);
        expect(length).toBeCloseTo(slow, 6);
        expect(length).toBeGreaterThanOrEqual(Math.hypot(start.x - end.x, start.y - end.y) - 1e-9);
        expect(must(shortestWalk(end, start, obstacles)).length).toBeCloseTo(length, 9);
        points.slice(1).forEach((p, i) => {
          const from = points[i] as Point;
          if (from.x === p.x && from.y === p.y) return;
          for (const o of obstacles) expect(jtsEnters([from, p], o)).toBe(false);
        });
      }),
      { seed: 72, numRuns: 50 },
    );
  });

  it("[MOD-72] is refused out of a closed ring, with an end inside an obstacle and for an obstacle that is not convex", () => {
    const bar = (x: number, y: number, w: number, h: number): Polygon => [
      { x, y },
      { x: x + w, y },
      { x: x + w, y: y + h },
      { x, y: y + h },
    ];
    const ring = [bar(-5, -5, 10, 1), bar(-5, 4, 10, 1), bar(-5, -5, 1, 10), bar(4, -5, 1, 10)];
    expect(shortestWalk({ x: 0, y: 0 }, { x: 20, y: 0 }, ring).ok).toBe(false);
    expect(shortestWalk({ x: 5, y: 5 }, { x: 20, y: 0 }, [square]).ok).toBe(false);
    expect(shortestWalk({ x: 20, y: 0 }, { x: 5, y: 5 }, [square]).ok).toBe(false);
    const hollow = [...square, { x: 5, y: 5 }];
    expect(shortestWalk({ x: 20, y: 0 }, { x: 30, y: 5 }, [hollow]).ok).toBe(false);
    expect(shortestWalk({ x: 20, y: 0 }, { x: 30, y: 5 }, [square.slice(0, 2)]).ok).toBe(false);
  });
});
