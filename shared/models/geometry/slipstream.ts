import { found, type Outcome, refused } from "../outcome.ts";

/** An ideal propeller stream, SI units. */
export interface Stream {
  /** Speed the disc itself adds to the air. */
  inducedMs: number;
  /** Speed of the air far behind, the aircraft's own speed included. */
  wakeMs: number;
  /** Diameter to which the stream narrows. */
  wakeDiameterM: number;
  /** Least power that produces this thrust. */
  idealPowerW: number;
  /** Share of the power that moves the aircraft; 0 when standing. */
  efficiency: number;
}

/**
 * Returns the stream of an actuator disk (Rankine and Froude): T = 2 rho A (V + v) v, so v = -V/2 + sqrt(V^2/4 + T / (2
 * rho A)). Far behind, the air moves at V + 2v, over an area of A (V + v) / (V + 2v). Momentum theory alone: no swirl,
 * no ground, no wing. Thrust N, diameter m, density kg/m^3, all positive; forward speed m/s, from 0.
 */
export function actuatorDisk(
  thrustN: number,
  diameterM: number,
  density: number,
  forwardMs = 0,
): Outcome<Stream> {
  if (!(thrustN > 0 && diameterM > 0 && density > 0 && forwardMs >= 0)) {
    return refused("thrust, diameter and density must be positive, forward speed at least 0");
  }
  const area = discArea(diameterM);
  const induced = -forwardMs / 2 + Math.sqrt(forwardMs ** 2 / 4 + thrustN / (2 * density * area));
  const through = forwardMs + induced;
  return found({
    inducedMs: induced,
    wakeMs: forwardMs + 2 * induced,
    wakeDiameterM: diameterM * Math.sqrt(through / (forwardMs + 2 * induced)),
    idealPowerW: thrustN * through,
    efficiency: forwardMs / through,
  });
}

/**
 * Returns the standing thrust, N, of a shaft power: T = (2 rho A (FM P)^2)^(1/3). The figure of merit FM is the share
 * of the power that an ideal disc would need, above 0 and at most 1.
 */
export function standingThrust(
  powerW: number,
  diameterM: number,
  density: number,
  figureOfMerit: number,
): Outcome<number> {
  if (!(powerW > 0 && diameterM > 0 && density > 0))
    return refused("power, diameter and density must be positive");
  if (!(figureOfMerit > 0 && figureOfMerit <= 1))
    return refused("figure of merit must be above 0 and at most 1");
  return found(Math.cbrt(2 * density * discArea(diameterM) * (figureOfMerit * powerW) ** 2));
}

function discArea(diameterM: number): number {
  return (Math.PI * diameterM ** 2) / 4;
}
