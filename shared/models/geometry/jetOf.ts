import type { RampData } from "../../types/ramp.ts";
import type { AircraftType } from "../../types/schema.ts";
import { found, type Outcome, refused } from "../outcome.ts";
import { inUnit } from "../units.ts";
import { isa } from "../weather/isa.ts";
import type { Jet, JetAssumption } from "./jet.ts";
import { actuatorDisk, standingThrust } from "./slipstream.ts";

/** Returns a propeller's stream at the type's starting power, aircraft standing, at sea level in the standard air. */
export function jetOf(type: AircraftType): Outcome<{ jet: Jet; assumption: JetAssumption; rules: JetRules }> {
  const rules = type.ramp?.jet;
  if (!rules) return refused("the type gives no power for its stream");
  const air = isa(0);
  if (!air.ok) return air;
  const density = air.value.densityKgM3;
  const { diameter } = type.propeller;
  const thrust = standingThrust(
    inUnit(rules.power, "kW") * 1000,
    diameter,
    density,
    rules.figureOfMerit.value,
  );
  if (!thrust.ok) return thrust;
  const stream = actuatorDisk(thrust.value, diameter, density);
  if (!stream.ok) return stream;
  return found({
    jet: { speedMs: stream.value.wakeMs, diameterM: stream.value.wakeDiameterM },
    assumption: {
      decay: rules.decay.value,
      halfWidth: rules.halfWidth.value,
      groundFactor: rules.groundFactor.value,
      source: rules.decay.source,
    },
    rules,
  });
}

export type JetRules = NonNullable<RampData["jet"]>;
