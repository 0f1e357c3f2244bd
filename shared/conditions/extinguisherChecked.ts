import type { Condition } from "./condition.ts";
import { fromCheck } from "./fromCheck.ts";

/** The guard's extinguisher is checked and of the type's least size (5 lb CO2 at the least: FAA-H-8083-30 text). */
export const extinguisherChecked: Condition = {
  id: "extinguisherChecked",
  owners: ["fireGuard"],
  find: (state, _engine, now) => fromCheck(state, "extinguisher", null, now),
};
