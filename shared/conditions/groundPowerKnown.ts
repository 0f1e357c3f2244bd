import { voltsInDoubt } from "../power/groundPower.ts";
import type { Finding, ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";

/**
 * The electrical source is known: ground power is on with volts in the type's steady range, or off where batteries are
 * planned.
 */
export const groundPowerKnown: ReportedCondition<"groundPowerKnown"> = {
  id: "groundPowerKnown",
  owners: ["groundPower", "cockpit"],
  scope: { clearance: "ifListed" },
  freshness: "groundPower",
  mayBeSetAside: true,
  askedBefore: false,
  find(state, _engine, now): Finding {
    const power = state.groundPower;
    if (power.is === "unknown") return state.powerSource === "batteries" ? ON_BATTERIES : NOBODY_SAID;
    if (power.is === "off") {
      if (power.lost) return { ...reportedNo(power.by, "off"), is: "unknown" };
      return state.powerSource === "batteries"
        ? fromReport(power.by, null, now)
        : reportedNo(power.by, "off");
    }
    const { steadyMin, steadyMax } = state.type.groundPower;
    const { value, unit } = power.volts;
    const inRange = unit === steadyMin.unit && value >= steadyMin.value && value <= steadyMax.value;
    if (!inRange) return reportedNo(power.by, `${value} ${unit}`);
    const doubt = voltsInDoubt(state);
    if (doubt) return { ...reportedNo(doubt.by, `${doubt.volts.value} ${doubt.volts.unit}`), is: "unknown" };
    return fromReport(power.by, freshSeconds(state, groundPowerKnown), now);
  },
};

/** For a start planned on batteries without a cart, the plan itself is the answer. */
const ON_BATTERIES: Finding = { is: "yes", at: null, by: null, until: null, found: "batteries" };
