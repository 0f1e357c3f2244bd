import { barringDrill } from "../drills/bars.ts";
import type { ReportedCondition } from "./definition.ts";

/** No open drill has a card that bars this engine. A named person ends the drill. */
export const noDrillBars: ReportedCondition<"noDrillBars"> = {
  id: "noDrillBars",
  owners: ["supervisor", "cockpit"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state, engine) {
    const bars = barringDrill(state, engine);
    if (!bars) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: bars.run.at, by: null, until: null, found: bars.drill.title };
  },
};
