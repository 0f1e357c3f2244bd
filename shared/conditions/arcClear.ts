import type { Condition } from "./condition.ts";
import { fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/** The propeller's arc at this engine is reported clear, and lately. */
export const arcClear: Condition = {
  id: "arcClear",
  owners: ["fireGuard"],
  find(state, engine, now) {
    const said = state.arcs[engine];
    if (!said) return NOBODY_SAID;
    return said.clear ? fromReport(said, state.type.timing.arcClear.value, now) : reportedNo(said);
  },
};
