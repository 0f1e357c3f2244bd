import type { ConditionId } from "../protocol/conditions.ts";
import type { Post } from "../protocol/posts.ts";
import type { Service, SessionState } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";

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

/** A permission that can stand on a condition: a clearance to start an engine, or the crew's leave for a service. */
export type Guarded = "clearance" | Service;

/**
 * `ifListed`: where the aircraft type lists the condition. `always`: whatever the type lists; no type may leave out a
 * condition that a clearance always stands on.
 */
export type Applies = "always" | "ifListed";

/** At least one permission: a condition that guards nothing does not compile. */
type Scope = {
  [G in Guarded]: Record<G, Applies> & Partial<Record<Guarded, Applies>>;
}[Guarded];

interface Definition<Id extends ConditionId> {
  id: Id;
  /** The permissions that stand on it. */
  scope: Scope;
  /** The type's timing below whose seconds an answer is fresh; null where no timing of the type ages it. */
  freshness: keyof AircraftType["timing"] | null;
  /** A type may let two people set it aside for one clearance. Never for stops, an arc, hands or held posts. */
  mayBeSetAside: boolean;
  /** The cockpit is not asked to request a start before it is met. Otherwise the request is what gets it met. */
  askedBefore: boolean;
  find(state: SessionState, engine: number, now: number): Finding;
}

/** Met by what posts report, or by what the session knows. */
export interface ReportedCondition<Id extends ConditionId = ConditionId> extends Definition<Id> {
  /** The posts that can meet it. */
  owners: readonly [Post, ...Post[]];
  check?: never;
}

/** Met by a check of the aircraft type. Its owner is the check's post. */
export interface CheckedCondition<Id extends ConditionId = ConditionId> extends Definition<Id> {
  owners?: never;
  /** Id of the type's check. */
  check: string;
  /** True while the check is asked for outside the check's own stage. */
  wanted(state: SessionState): boolean;
}

export type ConditionDefinition<Id extends ConditionId = ConditionId> =
  | ReportedCondition<Id>
  | CheckedCondition<Id>;
