import { barringDefects } from "../defects/barring.ts";
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
    const [defect] = barringDefects(state, engine);
    if (!defect) return { is: "yes", at: null, by: null, until: null };
    return reportedNo(defect.by, defect.words);
  },
};
