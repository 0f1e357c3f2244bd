import type { SessionState } from "./state.ts";

/** A new epoch: every clearance and every leave of an older one is dead, and the all clear must be said anew. */
export function newEpoch(state: SessionState): SessionState {
  return { ...state, epoch: state.epoch + 1, allClearAt: null };
}
