import type { Condition } from "./condition.ts";
import { fromCheck } from "./fromCheck.ts";

/** Area and loose gravel looked at: never start with loose gravel beneath the propellers (1946 operations rule 3032-1). */
export const areaChecked: Condition = {
  id: "areaChecked",
  owners: ["supervisor"],
  find: (state, _engine, now) => fromCheck(state, "area", state.type.timing.area.value, now),
};
