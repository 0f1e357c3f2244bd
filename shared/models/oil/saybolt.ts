import { found, type Outcome, outside, refused } from "../outcome.ts";

/**
 * Returns the kinematic viscosity, mm²/s, from Saybolt Universal seconds: 0.226·t − 195/t up to 100 s, 0.220·t − 135/t
 * above (an older form of ASTM D2161, from memory), within half a percent of the Hydraulic Institute's pairs. Range: 32
 * to 10 000 s. An old commercial oil number is near its seconds at 210 °F.
 */
export function viscosityFromSaybolt(seconds: number): Outcome<number> {
  const why = outside("Saybolt Universal seconds", seconds, 32, 10_000, "s");
  if (why) return refused(why);
  return found(seconds < 100 ? 0.226 * seconds - 195 / seconds : 0.22 * seconds - 135 / seconds);
}
