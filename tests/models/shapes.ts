import fc from "fast-check";
import type { Point } from "../../shared/models/geometry/polygon.ts";

/** Points on whole metres, so that touching shapes occur. */
export const gridPoint = fc.record({
  x: fc.integer({ min: -20, max: 20 }),
  y: fc.integer({ min: -20, max: 20 }),
});

/** Star-shaped simple polygons about a centre: angles rise, so edges never cross. */
export const simplePolygon = fc
  .record({
    middle: gridPoint,
    radii: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 3, maxLength: 8 }),
  })
  .map(({ middle, radii }) =>
    radii.map((r, i): Point => {
      const angle = (2 * Math.PI * i) / radii.length;
      return { x: middle.x + r * Math.cos(angle), y: middle.y + r * Math.sin(angle) };
    }),
  );

/** Axis-parallel rectangles on whole metres. */
export const rectangle = fc
  .record({ at: gridPoint, wide: fc.integer({ min: 1, max: 8 }), high: fc.integer({ min: 1, max: 8 }) })
  .map(({ at, wide, high }): Point[] => [
    at,
    { x: at.x + wide, y: at.y },
    { x: at.x + wide, y: at.y + high },
    { x: at.x, y: at.y + high },
  ]);
