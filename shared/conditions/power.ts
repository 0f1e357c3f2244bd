import { isTurning } from "../engine/life.ts";
import { voltsInDoubt } from "../power/groundPower.ts";
import type { SessionState } from "../session/state.ts";
import type { CheckedCondition, Finding, ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID, reportedNo } from "./finding.ts";
import { fromCheck, standsOnCheck } from "./fromCheck.ts";

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

/** The cart's output is off while the plug goes in (TM 1-1510-224-10 para 2-101). */
export const cartOutputOff = standsOnCheck({
  id: "cartOutputOff",
  check: "cartOutputOff",
  scope: { connectPower: "ifListed" },
  freshness: "groundPower",
  mayBeSetAside: false,
  askedBefore: false,
  wanted: (state) =>
    state.groundPower.is !== "on" && state.powerSource === "groundPower" && plugGoesIn(state),
});

/** True before power comes on, and again after the plug was pulled while engines are still to be started or stopped. */
function plugGoesIn({ stage, order, engines }: SessionState): boolean {
  if (stage === "powerUp" || stage === "groundPower") return true;
  if (stage === "stopping") return engines.some((e) => isTurning(e.life));
  return stage === "starting" && order.some((n) => engines[n - 1]?.life.is !== "stable");
}

/**
 * The generators carry the load before ground power is disconnected. The cockpit reads it while an engine with a
 * generator turns.
 */
export const generatorsCarry: CheckedCondition<"generatorsCarry"> = {
  id: "generatorsCarry",
  check: "generatorsCarry",
  scope: { disconnectPower: "ifListed" },
  freshness: "groundPower",
  mayBeSetAside: false,
  askedBefore: false,
  wanted: ({ groundPower, order, engines }) =>
    groundPower.is === "on" && order.every((n) => engines[n - 1]?.life.is === "stable"),
  find(state, _engine, now) {
    const alive = state.engines.some(
      (e) => isTurning(e.life) && state.type.engines[e.n - 1]?.accessories.includes("generator"),
    );
    // With no engine turning there is no load to carry: the aircraft is meant to lose power.
    const anyTurning = state.engines.some((e) => isTurning(e.life));
    if (!anyTurning) return { is: "yes", at: null, by: null, until: null };
    if (!alive) return { is: "no", at: null, by: null, until: null, found: "noGenerator" };
    return fromCheck(state, generatorsCarry, now);
  },
};
