import type { SessionState } from "../session/state.ts";
import { closeKinds } from "../signals/close.ts";
import { OUT_SERVICES, ownLeavesOut } from "./out.ts";

/**
 * Returns the state after an engine was cranked: no leave at the aircraft permits work any more, but its people may
 * still be there.
 */
export function leavesPermitNothing(state: SessionState): SessionState {
  const out = ownLeavesOut(state);
  if (out.length === 0) return state;
  const authorities = { ...state.authorities };
  for (const service of OUT_SERVICES) authorities[service] = null;
  const services = out.map((l) => l.service);
  return closeKinds({ ...state, leavesOut: out, authorities }, services, "revoked");
}
