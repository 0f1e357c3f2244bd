import type { ReportedCondition } from "./definition.ts";
import { reportedNo } from "./finding.ts";

/** No open defect that bars a start of this engine or of the aircraft. */
export const noBarringDefect: ReportedCondition<"noBarringDefect"> = {
  id: "noBarringDefect",
  owners: ["supervisor"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, engine) {
    const defect = state.defects.find((d) => d.barsStart && (d.engine === null || d.engine === engine));
    if (!defect) return { is: "yes", at: null, by: null, until: null };
    return reportedNo(defect.by, defect.words);
  },
};
