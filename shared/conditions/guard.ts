import { byWhoClears } from "../guard/byWhoClears.ts";
import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";
import { standsOnCheck, whileStarting } from "./fromCheck.ts";

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

/** The guard came to this engine without passing a turning engine's arc, or reported having walked around it. */
export const guardPathClear: ReportedCondition<"guardPathClear"> = {
  id: "guardPathClear",
  owners: ["fireGuard"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, engine) {
    const guard = state.guard;
    if (!guard || guard.engine !== engine) return NOBODY_SAID;
    if (guard.crossed !== null) return reportedNo(guard, String(guard.crossed));
    return { is: "yes", at: guard.at, by: { post: guard.post, name: guard.name }, until: null };
  },
};

/** The guard's extinguisher is checked and has at least the type's size (5 lb CO2 or more: FAA-H-8083-30 text). */
export const extinguisherChecked = standsOnCheck({
  id: "extinguisherChecked",
  check: "extinguisher",
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  wanted: whileStarting,
});
