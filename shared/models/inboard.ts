import type { AircraftType } from "../types/schema.ts";

/** Returns the engine nearest the centre line on each side, port first. A centre engine belongs to neither side. */
export function inboardEngines(type: Pick<AircraftType, "engines">): number[] {
  const port = type.engines.filter((e) => e.y < 0).at(-1);
  const starboard = type.engines.find((e) => e.y > 0);
  return [port, starboard].flatMap((e) => (e ? [e.n] : []));
}

/** Returns the engines whose station lies strictly between those of two others: their arcs lie on the straight way. */
export function enginesBetween(type: Pick<AircraftType, "engines">, a: number, b: number): number[] {
  const [low, high] = a < b ? [a, b] : [b, a];
  return type.engines.filter((e) => e.n > low && e.n < high).map((e) => e.n);
}
