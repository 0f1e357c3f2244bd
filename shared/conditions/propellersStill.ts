import type { ReportedCondition } from "./definition.ts";

/** A named person has since seen every propeller that an earlier session left turning stand still. */
export const propellersStill: ReportedCondition<"propellersStill"> = {
  id: "propellersStill",
  owners: ["fireGuard", "groundPower"],
  scope: { clearance: "always", handlePropeller: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state) {
    const turning = state.standing?.turning ?? [];
    if (turning.length === 0) return { is: "yes", at: null, by: null, until: null };
    const found = turning.map((t) => t.engine).join(", ");
    return { is: "no", at: null, by: null, until: null, found };
  },
};
