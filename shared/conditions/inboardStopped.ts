import { isTurning } from "../engine/life.ts";
import { inboardEngines } from "../models/inboard.ts";
import type { ReportedCondition } from "./definition.ts";

/** If the type requires it: the engine nearest the wheels on each side stands still before anybody removes a chock. */
export const inboardStopped: ReportedCondition<"inboardStopped"> = {
  id: "inboardStopped",
  owners: ["cockpit"],
  scope: { removeChocks: "ifListed" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find(state) {
    const turning = inboardEngines(state.type).find((n) => {
      const engine = state.engines[n - 1];
      return engine && isTurning(engine.life);
    });
    if (turning === undefined) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: String(turning) };
  },
};
