import type { Condition } from "./condition.ts";
import { fromCheck } from "./fromCheck.ts";

/** The cart's output is off while the plug goes in (TM 1-1510-224-10 para 2-101). */
export const cartOutputOff: Condition = {
  id: "cartOutputOff",
  owners: ["groundPower"],
  find: (state, _engine, now) => fromCheck(state, "cartOutputOff", state.type.timing.groundPower.value, now),
};
