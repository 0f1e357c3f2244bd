import { found, type Outcome, refused } from "../outcome.ts";
import { holds, type Point, type Polygon } from "./polygon.ts";
import { distanceToDisc, type Propeller } from "./propeller.ts";

/** The guard's place by type or site, metres. Sources differ (outboard of the engine, or behind it), so it is data. */
export interface GuardRule {
  /** Clear of the propeller's tip, outboard. */
  standOff: number;
  /** Ahead of the propeller's plane; negative is behind. */
  ahead: number;
  /** Farthest ahead the guard may stand where the usual place is taken by another arc or stream. */
  aheadMost: number;
}

const STEP = 0.5;
/** Rounding of the arithmetic, metres. */
const ROUNDING = 1e-9;

/**
 * The guard's place for a start: outboard of the engine (on the centre line: to port), clear of its disc by
 * `standOff`, and outside every polygon of `closed` (arcs and streams of engines that turn). Moves ahead by half
 * metres until clear; refused when there is no such place.
 */
export function guardStation(
  propeller: Propeller,
  closed: readonly Polygon[],
  rule: GuardRule,
): Outcome<Point> {
  const { hub, diameter } = propeller;
  const side = hub.y > 0 ? 1 : -1;
  const y = hub.y + side * (diameter / 2 + rule.standOff);
  for (let ahead = rule.ahead; ahead <= rule.aheadMost; ahead += STEP) {
    const place = { x: hub.x - ahead, y };
    const clearOfDisc = distanceToDisc(place, propeller) >= rule.standOff - ROUNDING;
    if (clearOfDisc && !closed.some((polygon) => holds(polygon, place))) return found(place);
  }
  return refused("no place outboard of the engine is clear");
}
