import { found, type Outcome, refused } from "../outcome.ts";
import { holds, type Point, type Polygon } from "./polygon.ts";
import { distanceToDisc, type Propeller } from "./propeller.ts";

/**
 * The rule for the guard's place by type or site, metres. Sources differ (outboard of the engine, or behind it), so it
 * is data.
 */
export interface GuardRule {
  /** Distance from the propeller's tip, outboard. */
  standOff: number;
  /** Distance ahead of the propeller's plane; negative is behind. */
  ahead: number;
  /** Farthest ahead that the guard may stand when the usual place is in another arc or stream. */
  aheadMost: number;
}

const STEP = 0.5;
/** Tolerance for rounding, metres. */
const ROUNDING = 1e-9;

/**
 * Returns the guard's place for a start: outboard of the engine (on the centre line: to port), `standOff` clear of its
 * disc, and outside every polygon of `closed` (arcs and streams of engines that turn). It moves ahead by half metres
 * until it is clear. Refused when there is no such place.
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
