import { FROM_SECURE } from "../protocol/stages.ts";
import { accept, refuse } from "../session/verdict.ts";
import { closeKinds } from "../signals/close.ts";
import { signal } from "../signals/kinds.ts";
import { leavesOut, OUT_SERVICES, withoutLeavesOut } from "./out.ts";

/** Ground power reports that none of its people is at the aircraft, whether the work was done or not. */
export const clearOfAircraft = signal({
  from: ["groundPower"],
  stages: FROM_SECURE,
  witnessable: true,
  decide: (state, send) =>
    leavesOut(state).length === 0 ? refuse("nothingOpen") : accept({ ...send, type: "sent" }),
  evolve(before) {
    const { standing, ...others } = withoutLeavesOut(before, OUT_SERVICES);
    const authorities = { ...before.authorities };
    for (const service of OUT_SERVICES) authorities[service] = null;
    const elsewhere = standing && { standing: standing.leaves ? { ...standing, leaves: [] } : standing };
    return closeKinds({ ...others, ...elsewhere, authorities }, OUT_SERVICES, "revoked");
  },
});
