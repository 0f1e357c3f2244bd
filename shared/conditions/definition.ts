import type { Service } from "../leaves/services.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { GivenTime } from "../types/schema.ts";

/** The answer of one condition for one engine at one moment. */
export interface Finding {
  /** `unknown`: nobody has reported. `stale`: the report is too old. */
  is: "yes" | "no" | "stale" | "unknown";
  /** Time of the report, server milliseconds. */
  at: number | null;
  /** The person who reported it. */
  by: { post: Post | null; name: string } | null;
  /** Server milliseconds at which a yes goes stale or a no becomes yes by itself; null if time alone changes nothing. */
  until: number | null;
  /** The fact that decided, for the words: an engine number, a figure with its unit, a name. */
  found?: string | undefined;
}

/** A permission that can depend on a condition: a clearance to start an engine, or the crew's leave for a service. */
export type Guarded = "clearance" | Service;

/**
 * `ifListed`: applies if the aircraft type lists the condition. `always`: applies with every type, and no type may
 * leave it out of a clearance.
 */
export type Applies = "always" | "ifListed";

/** At least one permission: a condition that guards nothing does not compile. */
type Scope = {
  [G in Guarded]: Record<G, Applies> & Partial<Record<Guarded, Applies>>;
}[Guarded];

interface Definition<Id extends ConditionId> {
  id: Id;
  /** The permissions that depend on it. */
  scope: Scope;
  /** The type's timing for which an answer stays fresh; null where no timing of the type ages it. */
  freshness: GivenTime | null;
  /** True if a type may let two people set it aside for one clearance. Never for stops, an arc, hands or held posts. */
  mayBeSetAside: boolean;
  /**
   * True if it must be met before the cockpit is asked to request a start. If false, the request asks the posts to meet
   * it.
   */
  askedBefore: boolean;
  find(state: SessionState, engine: number, now: number): Finding;
}

/** A condition that is met by reports of posts, or by what the session knows. */
export interface ReportedCondition<Id extends ConditionId = ConditionId> extends Definition<Id> {
  /** The posts that can meet it. */
  owners: readonly [Post, ...Post[]];
  check?: never;
}

/** A condition that is met by a check of the aircraft type. Its owner is the check's post. */
export interface CheckedCondition<Id extends ConditionId = ConditionId> extends Definition<Id> {
  owners?: never;
  /** Id of the type's check. */
  check: string;
  /** Returns true while the check is asked for outside its own stage. */
  wanted(state: SessionState): boolean;
}

export type ConditionDefinition<Id extends ConditionId = ConditionId> =
  | ReportedCondition<Id>
  | CheckedCondition<Id>;
