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
