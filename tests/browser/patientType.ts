import type { AircraftType } from "../../shared/types/schema.ts";

/** People have this many times as long in browser tests, because a busy machine is slower than any person. */
const TIMES = 20;

/** These are ages of a figure and not limits on people. Some tests need the refusal of an old figure. */
const NOT_PEOPLE = ["handsAfterStart", "bystanderHold", "area", "weather"];
/** A post stays silent while the pictures of all the others are taken. */
const PRESENCE = ["presenceSeen", "presenceHeard", "presenceHold", "presenceAgain"];

/** The greatest heat limit that a type can have, in kelvins. */
const HEAT_MOST = 2_000;

/**
 * Returns the type with limits on people so long that none runs out during a browser test. A test that needs one to
 * run out moves the server's clock. The run-up is left out, because it asks for many figures.
 * @param times multiplies the limits; presence is always multiplied by at least 20
 */
export function patientType({ runUp: _asked, ...type }: AircraftType, times = TIMES): AircraftType {
  const longer = <T extends { value: number }>(limit: T, by = times): T => ({
    ...limit,
    value: limit.value * by,
  });
  const timing = Object.entries(type.timing).map(([name, limit]) => {
    if (limit === undefined || NOT_PEOPLE.includes(name)) return [name, limit];
    return [name, longer(limit, PRESENCE.includes(name) ? Math.max(times, TIMES) : times)];
  });
  return {
    ...type,
    timing: Object.fromEntries(timing) as AircraftType["timing"],
    starter: {
      ...type.starter,
      ladder: type.starter.ladder.map((rung) => ({ ...rung, onMax: longer(rung.onMax) })),
      // A ladder that allows more heat than the most is refused, so the most rises with it, as far as it may.
      ...(type.starter.heat
        ? { heat: { ...type.starter.heat, most: { ...type.starter.heat.most, value: HEAT_MOST } } }
        : {}),
    },
    oil: {
      ...type.oil,
      firstIndication: { ...type.oil.firstIndication, within: longer(type.oil.firstIndication.within) },
      normal: { ...type.oil.normal, within: longer(type.oil.normal.within) },
    },
  };
}
