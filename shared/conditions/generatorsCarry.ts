import { isTurning } from "../engine/life.ts";
import type { CheckedCondition } from "./definition.ts";
import { fromCheck } from "./fromCheck.ts";

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
