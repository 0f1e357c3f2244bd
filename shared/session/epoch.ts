import type { SessionState } from "./state.ts";

/**
 * Returns the state in a new epoch: every clearance and every leave of an older one has ended, and the all clear must
 * be given again.
 */
export function newEpoch(state: SessionState): SessionState {
  return { ...state, epoch: state.epoch + 1, allClearAt: null };
}
