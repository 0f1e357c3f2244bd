import { oilLost } from "../engine/oilLost.ts";
import type { ReportedCondition } from "./definition.ts";

/** Every other engine has not caught, is stable with its oil pressure, or is shut down; none is between these. */
export const othersSettled: ReportedCondition<"othersSettled"> = {
  id: "othersSettled",
  owners: ["cockpit"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, engine) {
    const other = state.engines.find(
      (e) =>
        e.n !== engine &&
        (e.life.is === "caught" || e.life.is === "running" || e.life.is === "fire" || oilLost(state, e)),
    );
    if (!other) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: String(other.n) };
  },
};
