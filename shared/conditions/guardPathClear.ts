import type { ReportedCondition } from "./definition.ts";
import { NOBODY_SAID, reportedNo } from "./finding.ts";

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
