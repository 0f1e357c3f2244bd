import WKTReader, { type Shape } from "jsts/org/locationtech/jts/io/WKTReader.js";
import "jsts/org/locationtech/jts/monkey.js";
import type { Point, Polygon } from "../../shared/models/geometry/polygon.ts";

const reader = new WKTReader();
const xy = (p: Point) => `${p.x} ${p.y}`;

/** Returns the same shape in the JTS library, against which the models' geometry is checked. */
export function jtsPolygon(polygon: Polygon): Shape {
  return reader.read(`POLYGON((${[...polygon, polygon[0] as Point].map(xy).join(",")}))`);
}

export function jtsPoint(p: Point): Shape {
  return reader.read(`POINT(${xy(p)})`);
}

export function jtsLine(points: readonly Point[]): Shape {
  return reader.read(`LINESTRING(${points.map(xy).join(",")})`);
}

/** Returns true when a line runs through a polygon's inside. */
export function jtsEnters(line: readonly Point[], polygon: Polygon): boolean {
  return jtsPolygon(polygon).relate(jtsLine(line), "T********");
}
