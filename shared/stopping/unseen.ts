import { isTurning } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the engines that turn, and those that stopped in this session without their propeller seen still since. */
export function notSeenStill({ engines }: SessionState): number[] {
  return engines.filter((e) => isTurning(e.life) || e.unseen !== undefined).map((e) => e.n);
}
