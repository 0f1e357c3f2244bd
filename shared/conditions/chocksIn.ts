import type { ReportedCondition } from "./definition.ts";
import { fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/** Main wheels chocked. Brakes are never a substitute (TM 1-1500-204-23-1). Chocks stay until reported out. */
export const chocksIn: ReportedCondition<"chocksIn"> = {
  id: "chocksIn",
  owners: ["groundPower"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, _engine, now) {
    if (!state.chocks) return NOBODY_SAID;
    return state.chocks.in ? fromReport(state.chocks, null, now) : reportedNo(state.chocks);
  },
};
