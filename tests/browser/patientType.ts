import type { AircraftType } from "../../shared/types/schema.ts";

/** How many times as long people have in browser tests, where a busy machine is slower than any person. */
const TIMES = 20;

/** How long a figure stays valid is not a person's limit: some tests ask for the refusal of an old one. */
const NOT_PEOPLE = ["area", "weather"];
/** A picture of every post takes longest for whoever is silent meanwhile. */
const PRESENCE = ["presenceSeen", "presenceHeard", "presenceHold"];

/**
 * Returns a type whose limits on people do not run out while a browser test works. A test that needs one of them to
 * run out moves the server's clock. The type has no run-up, because every figure of it is asked.
 * @param times how many times as long; presence is never less than 20 times as long
 */
export function patientType({ runUp: _asked, ...type }: AircraftType, times = TIMES): AircraftType {
  const longer = <T extends { value: number }>(limit: T, by = times): T => ({
    ...limit,
    value: limit.value * by,
  });
  const timing = Object.entries(type.timing).map(([name, limit]) => {
    if (NOT_PEOPLE.includes(name)) return [name, limit];
    return [name, longer(limit, PRESENCE.includes(name) ? Math.max(times, TIMES) : times)];
  });
  return {
    ...type,
    timing: Object.fromEntries(timing) as AircraftType["timing"],
    starter: {
      ...type.starter,
      ladder: type.starter.ladder.map((rung) => ({ ...rung, onMax: longer(rung.onMax) })),
    },
    oil: {
      ...type.oil,
      firstIndication: { ...type.oil.firstIndication, within: longer(type.oil.firstIndication.within) },
      normal: { ...type.oil.normal, within: longer(type.oil.normal.within) },
    },
  };
}
