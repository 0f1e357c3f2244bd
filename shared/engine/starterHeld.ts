import type { SessionState } from "../session/state.ts";
import { plain } from "./life.ts";

/** Returns true while the starter of any engine is held. */
export function starterHeld(state: SessionState): boolean {
  return state.engines.some((e) => plain(e.life).is === "cranking");
}
