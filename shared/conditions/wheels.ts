import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/** The brakes are set, with pressure at or above the type's figure. The report ages, because pressure bleeds off. */
export const brakesSet: ReportedCondition<"brakesSet"> = {
  id: "brakesSet",
  owners: ["cockpit"],
  scope: { clearance: "ifListed", removeChocks: "always" },
  freshness: "brakes",
  mayBeSetAside: true,
  askedBefore: false,
  find(state, _engine, now) {
    const said = state.brakes;
    if (!said) return NOBODY_SAID;
    if (!said.set) return reportedNo(said);
    const least = state.type.brakePressure.atLeast;
    const pressure = said.pressure;
    if (!pressure || pressure.unit !== least.unit) return { ...NOBODY_SAID, found: "pressure" };
    if (pressure.value < least.value) return reportedNo(said, `${pressure.value} ${pressure.unit}`);
    return fromReport(said, freshSeconds(state, brakesSet), now);
  },
};

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
