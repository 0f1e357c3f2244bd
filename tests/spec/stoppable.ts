import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";

const source = { basis: "invented", text: "for tests" } as const;

/** The four-engined type with rules for stopping: two minutes at idle and 200 °C at the cylinders. */
export const STOPPED: AircraftType = {
  ...FOUR,
  gauges: [
    ...FOUR.gauges,
    {
      id: "cylinderTemp",
      name: "cylinderTemp",
      unit: "degC",
      perEngine: true,
      scale: { from: -40, to: 350, step: 1 },
      source,
    },
  ],
  stopping: {
    order: [2, 3, 1, 4],
    orderSource: source,
    coolDown: {
      atIdle: { value: 120, unit: "s", source },
      gauges: [{ gauge: "cylinderTemp", atMost: { value: 200, unit: "degC", source } }],
    },
    still: { by: "another", source },
  },
};

/** The same where only the fire guard may report a propeller still. */
export const SEEN_BY_GUARD: AircraftType = {
  ...STOPPED,
  ...(STOPPED.stopping && { stopping: { ...STOPPED.stopping, still: { by: "guard", source } } }),
};
