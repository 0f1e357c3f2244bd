import { groundPowerVerdict } from "../power/groundPower.ts";
import type { AlertDefinition } from "./definition.ts";

export const groundPowerOutOfRange: AlertDefinition<"groundPowerOutOfRange"> = {
  to: ["cockpit", "groundPower"],
  priority: "warning",
  latching: false,
  shelvable: true,
  acts: null,
  trigger: "alert:groundPowerOutOfRange",
  about: "aircraft",
  lasts: (state) => groundPowerVerdict(state)?.within === false,
};

/**
 * Ground power went without the crew's leave. A warning, as for its volts: the supervisor hears of it too, because the
 * start stands on it. Before release it is no fault that power is off.
 */
export const powerLost: AlertDefinition<"powerLost"> = {
  to: ["cockpit", "groundPower", "supervisor"],
  priority: "warning",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: "alert:powerLost",
  about: "aircraft",
  lasts: ({ groundPower, stage }) =>
    groundPower.is === "off" && groundPower.lost === true && stage !== "release",
};
