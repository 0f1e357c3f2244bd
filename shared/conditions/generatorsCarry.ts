import { isTurning } from "../engine/life.ts";
import type { CheckedCondition } from "./definition.ts";
import { fromCheck } from "./fromCheck.ts";

/** Before ground power goes, the generators carry the load: read by the cockpit, with an engine that has one turning. */
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
    // With nothing turning the aircraft goes dark on purpose: there is no load to carry.
    const anyTurning = state.engines.some((e) => isTurning(e.life));
    if (!anyTurning) return { is: "yes", at: null, by: null, until: null };
    if (!alive) return { is: "no", at: null, by: null, until: null, found: "noGenerator" };
    return fromCheck(state, generatorsCarry, now);
  },
};
