import { distanceToSegment, type Point } from "./polygon.ts";

/** A propeller: its hub and its diameter, metres. */
export interface Propeller {
  hub: Point;
  diameter: number;
}

/** The part of an aircraft type that gives a propeller. An engine's station is used as its propeller's plane. */
export interface PropellerType {
  engines: readonly { n: number; x: number; y: number }[];
  propeller: { diameter: number };
}

/** Returns the propeller of engine n; null when the type has no such engine. */
export function propellerOf(type: PropellerType, n: number): Propeller | null {
  const engine = type.engines.find((e) => e.n === n);
  return engine ? { hub: { x: engine.x, y: engine.y }, diameter: type.propeller.diameter } : null;
}

/** Returns the port and starboard tips: seen from above a propeller is a line across the hub. */
export function discLine({ hub, diameter }: Propeller): [Point, Point] {
  return [
    { x: hub.x, y: hub.y - diameter / 2 },
    { x: hub.x, y: hub.y + diameter / 2 },
  ];
}

/** Returns the distance from a point on the ground to the propeller's disc as seen from above, metres. */
export function distanceToDisc(point: Point, propeller: Propeller): number {
  return distanceToSegment(point, ...discLine(propeller));
}

/**
 * Returns the turning arc on the ground: a rectangle that contains every point nearer than `margin` metres to the disc.
 * Its corners contain a little more than needed, never less. Corners are clockwise from above, from ahead on the port
 * side.
 */
export function turningArc({ hub, diameter }: Propeller, margin: number): Point[] {
  const side = diameter / 2 + margin;
  return [
    { x: hub.x - margin, y: hub.y - side },
    { x: hub.x - margin, y: hub.y + side },
    { x: hub.x + margin, y: hub.y + side },
    { x: hub.x + margin, y: hub.y - side },
  ];
}
