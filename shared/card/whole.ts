import type { SessionState } from "../session/state.ts";
import { isCalledFor } from "./case.ts";
import { type CardPlace, everyPlace } from "./places.ts";

/** Returns the whole card as it applies now, in the order of the job. */
export function wholeCard(state: SessionState, now: number): CardPlace[] {
  return everyPlace(state).filter((p) => isCalledFor(state, p, now));
}
