import type { Condition } from "./condition.ts";
import { NOBODY_SAID, reportedNo } from "./finding.ts";

/** The guard came to this engine without walking through a turning engine's arc, or says to have walked around. */
export const guardPathClear: Condition = {
  id: "guardPathClear",
  owners: ["fireGuard"],
  find(state, engine) {
    const guard = state.guard;
    if (!guard || guard.engine !== engine) return NOBODY_SAID;
    if (guard.crossed !== null) return reportedNo(guard, String(guard.crossed));
    return { is: "yes", at: guard.at, by: { post: guard.post, name: guard.name }, until: null };
  },
};
