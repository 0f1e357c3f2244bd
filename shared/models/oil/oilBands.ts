import type { Quantity } from "../../protocol/quantity.ts";
import type { OilRules } from "../../types/oil.ts";
import { bandsBelow, chosenBands } from "../temperatureBand.ts";

type Timer = OilRules["normal"];

/** The two oil-pressure limits that apply at a temperature. */
export interface OilLimits {
  firstIndication: Timer;
  normal: Timer;
  /** True when the temperature is unknown and the most restrictive of several bands was used. */
  assumed: boolean;
}

/**
 * Returns the oil-pressure limits by the band of the air's temperature. If the temperature is unknown, each limit takes
 * the highest pressure and the shortest time of all bands. All pressures must have one unit, that of the gauge, as the
 * type's rules require.
 */
export function oilLimitsAt(oil: OilRules, temperature: Quantity | null): OilLimits {
  const { bands, assumed } = chosenBands(
    bandsBelow<OilRules, Pick<OilRules, "firstIndication" | "normal">>(oil),
    temperature,
  );
  const strictest = (key: "firstIndication" | "normal"): Timer => {
    const timers = bands.map((band) => band[key]);
    const [first] = timers;
    if (!first) throw new Error("a type has oil limits");
    return timers.reduce(
      (a, b) => ({
        atLeast: b.atLeast.value > a.atLeast.value ? b.atLeast : a.atLeast,
        within: b.within.value < a.within.value ? b.within : a.within,
      }),
      first,
    );
  };
  return { firstIndication: strictest("firstIndication"), normal: strictest("normal"), assumed };
}
