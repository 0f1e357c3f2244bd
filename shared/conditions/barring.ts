import { barringDefects, barsAgainAt } from "../defects/barring.ts";
import { barringDrill } from "../drills/bars.ts";
import { leavesOut } from "../leaves/out.ts";
import type { OutService } from "../leaves/services.ts";
import type { ReportedCondition } from "./definition.ts";
import { reportedNo } from "./finding.ts";

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

/** No open defect that bars a start of this engine or of the aircraft, and is not deferred. */
export const noBarringDefect: ReportedCondition<"noBarringDefect"> = {
  id: "noBarringDefect",
  owners: ["supervisor"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, engine, now) {
    const [defect] = barringDefects(state, engine, now);
    if (!defect) return { is: "yes", at: null, by: null, until: barsAgainAt(state, engine, now) };
    return reportedNo(defect.by, defect.words);
  },
};

const WORK: Readonly<Record<OutService, string>> = {
  connectPower: "connecting",
  disconnectPower: "disconnecting",
  insertChocks: "inserting",
  removeChocks: "removing",
};

/** Nobody is at the aircraft on the crew's leave: for each leave the work was reported done, or its people clear. */
export const noLeaveOut: ReportedCondition<"noLeaveOut"> = {
  id: "noLeaveOut",
  owners: ["groundPower"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: false,
  askedBefore: true,
  find(state) {
    const [out] = leavesOut(state);
    return out ? reportedNo(out.by, WORK[out.service]) : { is: "yes", at: null, by: null, until: null };
  },
};
