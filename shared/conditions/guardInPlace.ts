import { byWhoClears } from "../guard/byWhoClears.ts";
import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/**
 * The fire guard reported recently enough to be at this engine. It is a report because the cockpit may not see a guard
 * behind the engine (common practice, no source). A guard at every start: FAA-H-8083-30 ch. 11.
 */
export const guardInPlace: ReportedCondition<"guardInPlace"> = {
  id: "guardInPlace",
  owners: ["fireGuard"],
  scope: { clearance: "always" },
  freshness: "guardInPlace",
  mayBeSetAside: true,
  askedBefore: false,
  find(state, engine, now) {
    if (!state.guard) return NOBODY_SAID;
    if (byWhoClears(state, state.guard)) return { ...reportedNo(state.guard), is: "unknown" };
    if (state.guard.engine !== engine) return reportedNo(state.guard, String(state.guard.engine));
    return fromReport(state.guard, freshSeconds(state, guardInPlace), now);
  },
};
