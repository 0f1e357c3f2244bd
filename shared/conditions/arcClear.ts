import { byWhoClears } from "../guard/byWhoClears.ts";
import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/** The propeller's arc at this engine was reported clear recently enough. */
export const arcClear: ReportedCondition<"arcClear"> = {
  id: "arcClear",
  owners: ["fireGuard"],
  scope: { clearance: "always" },
  freshness: "arcClear",
  mayBeSetAside: false,
  askedBefore: false,
  find(state, engine, now) {
    const said = state.arcs[engine];
    if (!said) return NOBODY_SAID;
    if (said.clear && byWhoClears(state, said)) return { ...reportedNo(said), is: "unknown" };
    return said.clear ? fromReport(said, freshSeconds(state, arcClear), now) : reportedNo(said);
  },
};
