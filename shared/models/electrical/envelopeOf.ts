import type { GroundPowerRules } from "../../types/electrical.ts";
import type { Envelope } from "./envelope.ts";

/** Returns the type's ground power as an envelope; null where the type gives no starting band or no transients. */
export function envelopeOf({
  steadyMin,
  steadyMax,
  starting,
  transients,
}: GroundPowerRules): Envelope | null {
  if (!starting || !transients) return null;
  return {
    steady: { min: steadyMin.value, max: steadyMax.value },
    starting: { min: starting.min.value, max: starting.max.value },
    over: transients.over,
    under: transients.under,
    longestGap: transients.longestGap.value * 1000,
  };
}
