import { type Jet, type JetAssumption, jetReach } from "./jet.ts";
import type { Point } from "./polygon.ts";
import type { Propeller } from "./propeller.ts";

/** The ground behind a propeller where air may blow faster than a limit, with the assumptions behind it. */
export interface BlastZone {
  polygon: Point[];
  /** Metres behind the propeller. */
  reach: number;
  assumption: JetAssumption;
}

/**
 * Half-widths by which the edge widens. With the near edge below, the zone holds every speed over the limit, up to 20
 * times the limit.
 */
const HALF_WIDTHS = 1.5;

/**
 * Returns a trapezium from the propeller back to where the middle of the jet slows to `limitMs`. At the propeller it is
 * as wide as the disc, or as the part of the jet that is over the limit if that is wider. It widens on both sides by
 * 1.5 half-widths per metre behind. Null when nothing blows faster than the limit.
 */
export function blastZone(
  propeller: Propeller,
  jet: Jet,
  limitMs: number,
  assumption: JetAssumption,
): BlastZone | null {
  const reach = jetReach(jet, limitMs, assumption).value;
  if (reach <= 0) return null;
  const profile = (jet.diameterM / 2) * Math.sqrt(Math.log2(jet.speedMs / limitMs));
  return {
    polygon: wake(propeller.hub, Math.max(propeller.diameter / 2, profile), reach, assumption),
    reach,
    assumption,
  };
}

/**
 * Returns the trapezium behind a hub, `near` metres to each side there, back to a distance. Its corners are in the same
 * order as those of an arc.
 */
export function wake(hub: Point, near: number, reach: number, assumption: JetAssumption): Point[] {
  const far = near + HALF_WIDTHS * assumption.halfWidth * reach;
  return [
    { x: hub.x, y: hub.y - near },
    { x: hub.x, y: hub.y + near },
    { x: hub.x + reach, y: hub.y + far },
    { x: hub.x + reach, y: hub.y - far },
  ];
}
