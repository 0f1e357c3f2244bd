import type { SessionState } from "../session/state.ts";
import { standsOnCheck } from "./fromCheck.ts";

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

/** True before power comes on, and again after the plug was pulled while engines are still to be started. */
function plugGoesIn({ stage, order, engines }: SessionState): boolean {
  if (stage === "powerUp" || stage === "groundPower") return true;
  return stage === "starting" && order.some((n) => engines[n - 1]?.life.is !== "stable");
}
