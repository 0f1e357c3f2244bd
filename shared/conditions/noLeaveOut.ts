import { leavesOut } from "../leaves/out.ts";
import type { OutService } from "../session/state.ts";
import type { ReportedCondition } from "./definition.ts";
import { reportedNo } from "./finding.ts";

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
