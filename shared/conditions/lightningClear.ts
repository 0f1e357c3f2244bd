import { lightningNow } from "../weather/lightning.ts";
import type { ReportedCondition } from "./definition.ts";

/**
 * No flash within the type's distance, or of unknown distance, in the type's time. Nobody has to report that there was
 * none: the condition depends only on reported flashes. A type without a lightning rule has no limit to exceed.
 */
export const lightningClear: ReportedCondition<"lightningClear"> = {
  id: "lightningClear",
  owners: ["supervisor"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: false,
  find(state, _engine, now) {
    const seen = lightningNow(state, now);
    if (seen?.state !== "stop") return { is: "yes", at: null, by: null, until: null };
    const found = seen.nearestMiles === null ? "distance unknown" : `${seen.nearestMiles} mi`;
    return { is: "no", at: seen.lastAt, by: null, until: seen.resumeAt, found };
  },
};
