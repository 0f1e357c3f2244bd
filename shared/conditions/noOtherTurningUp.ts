import { plain } from "../engine/life.ts";
import type { ReportedCondition } from "./definition.ts";

/** No other engine is cranking or cleared to crank: one guard covers one engine. */
export const noOtherTurningUp: ReportedCondition<"noOtherTurningUp"> = {
  id: "noOtherTurningUp",
  owners: ["cockpit"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find(state, engine) {
    const other = state.engines.find((e) => {
      const is = plain(e.life).is;
      return e.n !== engine && (is === "cranking" || is === "clear");
    });
    if (!other) return { is: "yes", at: null, by: null, until: null };
    return { is: "no", at: null, by: null, until: null, found: String(other.n) };
  },
};
