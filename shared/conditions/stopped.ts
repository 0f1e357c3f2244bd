import { notSeenStill } from "../stopping/unseen.ts";
import type { ReportedCondition } from "./definition.ts";
import { fromReport, NOBODY_SAID } from "./finding.ts";

/**
 * A named person saw this propeller still since it last turned; in a return, every propeller. An engine that was
 * reported stopped may still run on.
 */
export const propellerSeenStill: ReportedCondition<"propellerSeenStill"> = {
  id: "propellerSeenStill",
  owners: ["fireGuard", "groundPower", "supervisor"],
  scope: { handlePropeller: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find(state, engine) {
    const left = notSeenStill(state).filter((n) => n === engine || state.returning !== undefined);
    if (left.length === 0) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: left.join(", ") };
  },
};

/** In a return, the cockpit proved the switches off after the last engine stopped. Before a start, its leave says so. */
export const switchesProvedOff: ReportedCondition<"switchesProvedOff"> = {
  id: "switchesProvedOff",
  owners: ["cockpit"],
  scope: { handlePropeller: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find({ returning }, _engine, now) {
    if (!returning) return { is: "yes", at: null, by: null, until: null };
    return returning.switchesOff ? fromReport(returning.switchesOff, null, now) : NOBODY_SAID;
  },
};
