import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";

export const CONDITION_IDS = [
  "noStopOpen",
  "guardInPlace",
  "arcClear",
  "brakesSet",
  "chocksIn",
  "groundPowerKnown",
  "noOtherTurningUp",
  "othersSettled",
  "starterCool",
  "postsHeld",
  "postsCurrent",
  "bladesCounted",
  "handsOffPropellers",
  "extinguisherChecked",
  "guardPathClear",
  "areaChecked",
  "fuellingClear",
  "windWithinLimits",
  "lightningClear",
  "noBarringDefect",
  "cartOutputOff",
  "generatorsCarry",
  "inboardStopped",
] as const;
export type ConditionId = (typeof CONDITION_IDS)[number];

/** One condition's answer for one engine at one moment. */
export interface Finding {
  /** `unknown`: nobody has said. `stale`: somebody said, too long ago. */
  is: "yes" | "no" | "stale" | "unknown";
  /** When it was said, server milliseconds. */
  at: number | null;
  /** Who said so. */
  by: { post: Post | null; name: string } | null;
  /** Server milliseconds at which a yes goes stale or a no becomes yes by itself; null if time alone changes nothing. */
  until: number | null;
  /** The fact that decided, for the words: an engine number, a figure with its unit, a name. */
  found?: string | undefined;
}

export interface Condition {
  id: ConditionId;
  /** The posts that can meet it. */
  owners: readonly Post[];
  find(state: SessionState, engine: number, now: number): Finding;
}

/** A finding as reported. `overridden`: not met, and set aside for this engine by two people. */
export interface ConditionReport extends Omit<Finding, "is"> {
  id: ConditionId;
  is: Finding["is"] | "overridden";
  owners: readonly Post[];
  /** Age of the answer in milliseconds, null when nobody has said. */
  age: number | null;
}
