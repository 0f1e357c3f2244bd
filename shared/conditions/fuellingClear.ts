import type { Condition } from "./condition.ts";
import { fromCheck } from "./fromCheck.ts";

/** No fuelling and no uncleared spill within the type's distance (50 ft: TM 1-1500-204-23-1). */
export const fuellingClear: Condition = {
  id: "fuellingClear",
  owners: ["supervisor"],
  find: (state, _engine, now) => fromCheck(state, "fuelling", state.type.timing.area.value, now),
};
