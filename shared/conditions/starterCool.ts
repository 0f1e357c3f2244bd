import { starterDutyAt } from "../models/starter.ts";
import { engineOf } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import type { ReportedCondition } from "./definition.ts";

/** The starter has rested as long as its ladder requires. Time alone meets this condition. */
export const starterCool: ReportedCondition<"starterCool"> = {
  id: "starterCool",
  owners: ["cockpit"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, engine, now) {
    const uses = engineOf(state, engine)?.starter ?? [];
    const { permittedAt } = starterDutyAt(state.type.starter, uses, now, airTemperature(state));
    if (now >= permittedAt) return { is: "yes", at: null, by: null, until: null };
    const until = Number.isFinite(permittedAt) ? permittedAt : null;
    return { is: "no", at: uses.at(-1)?.off ?? null, by: null, until };
  },
};
