import type { Condition } from "./condition.ts";
import { fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/** Brakes set, with pressure at or above the type's figure, and lately: pressure bleeds off. */
export const brakesSet: Condition = {
  id: "brakesSet",
  owners: ["cockpit"],
  find(state, _engine, now) {
    const said = state.brakes;
    if (!said) return NOBODY_SAID;
    if (!said.set) return reportedNo(said);
    const least = state.type.brakePressure.atLeast;
    const pressure = said.pressure;
    if (!pressure || pressure.unit !== least.unit) return { ...NOBODY_SAID, found: "pressure" };
    if (pressure.value < least.value) return reportedNo(said, `${pressure.value} ${pressure.unit}`);
    return fromReport(said, state.type.timing.brakes.value, now);
  },
};
