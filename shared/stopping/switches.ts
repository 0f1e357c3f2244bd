import type { SessionState } from "../session/state.ts";

/** Returns the state after an engine turned again: nobody knows any more that the switches are off. */
export function switchesInDoubt(state: SessionState): SessionState {
  if (!state.returning?.switchesOff) return state;
  return { ...state, returning: { ...state.returning, switchesOff: null } };
}
