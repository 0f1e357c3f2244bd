import type { Condition } from "./condition.ts";
import { reportedNo } from "./finding.ts";

/** Nobody has a hand on any propeller. Ignition was confirmed off before anybody went there. */
export const handsOffPropellers: Condition = {
  id: "handsOffPropellers",
  owners: ["fireGuard", "groundPower"],
  find(state) {
    if (state.handling) return reportedNo(state.handling.by, String(state.handling.engine));
    return { is: "yes", at: null, by: null, until: null };
  },
};
