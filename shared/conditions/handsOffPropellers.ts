import type { ReportedCondition } from "./definition.ts";
import { reportedNo } from "./finding.ts";

/** Nobody has hands on any propeller. Ignition was confirmed off before anybody went there. */
export const handsOffPropellers: ReportedCondition<"handsOffPropellers"> = {
  id: "handsOffPropellers",
  owners: ["fireGuard", "groundPower"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state) {
    const hands = state.handling ?? state.standing?.hands[0];
    if (hands) return reportedNo(hands.by, String(hands.engine));
    return { is: "yes", at: null, by: null, until: null };
  },
};
