import type { ReportedCondition } from "./definition.ts";

/** No hold, cut or fire is open. Only the owner of a stop can end it. */
export const noStopOpen: ReportedCondition<"noStopOpen"> = {
  id: "noStopOpen",
  owners: ["cockpit", "fireGuard", "groundPower", "supervisor"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: false,
  find(state) {
    const stop = state.fires[0] ?? state.cuts[0] ?? state.holds[0];
    if (!stop) return { is: "yes", at: null, by: null, until: null };
    const found = state.fires[0] ? "fire" : state.cuts[0] ? "cut" : "hold";
    return { is: "no", at: stop.by.at, by: { post: stop.by.post, name: stop.by.name }, until: null, found };
  },
};
