import { onceFor } from "../derived/onceFor.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import { CONDITION_IDS, type ConditionId } from "../protocol/conditions.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";
import * as barring from "./barring.ts";
import * as card from "./card.ts";
import type { ConditionDefinition, Guarded } from "./definition.ts";
import * as engines from "./engines.ts";
import * as guard from "./guard.ts";
import * as posts from "./posts.ts";
import * as power from "./power.ts";
import * as propellers from "./propellers.ts";
import { clearanceReport } from "./report.ts";
import * as stopped from "./stopped.ts";
import * as surroundings from "./surroundings.ts";
import * as wheels from "./wheels.ts";

/** Every export of these files is the definition of a condition, under its id. All else is derived from it. */
const DEFINED = {
  ...barring,
  ...card,
  ...engines,
  ...guard,
  ...posts,
  ...power,
  ...propellers,
  ...stopped,
  ...surroundings,
  ...wheels,
};

/** Does not compile while a condition with words lacks its definition, or a definition its words. */
const CONDITIONS = DEFINED satisfies { [Id in ConditionId]: ConditionDefinition<Id> } & Record<
  Exclude<keyof typeof DEFINED, ConditionId>,
  never
>;

/**
 * Returns the definition of an id.
 * @throws Error for an id without one, so that an unknown condition is never met
 */
export function conditionOf(id: ConditionId): ConditionDefinition {
  if (!Object.hasOwn(CONDITIONS, id)) throw new Error(`no condition is defined under the id ${id}`);
  return CONDITIONS[id];
}

export const DEFINITIONS: readonly ConditionDefinition[] = CONDITION_IDS.map(conditionOf);

/** Returns whether a permission depends on the condition with this aircraft type. */
export function applies(type: AircraftType, condition: ConditionDefinition, guarded: Guarded): boolean {
  const when = condition.scope[guarded];
  return when === "always" || (when === "ifListed" && type.conditions.includes(condition.id));
}

/**
 * Returns the findings of every condition of a clearance, for one engine at one moment: those that the type lists, in
 * its order, then those that always apply.
 */
export function findAll(state: SessionState, engine: number, now: number): ConditionReport[] {
  return ofClearance(state.type).map((condition) => clearanceReport(state, condition, engine, now));
}

const ofClearance = onceFor(({ conditions }: AircraftType): readonly ConditionDefinition[] => {
  const listed = conditions.map(conditionOf);
  const others = DEFINITIONS.filter((c) => c.scope.clearance === "always" && !conditions.includes(c.id));
  return [...listed, ...others].filter((condition) => condition.scope.clearance !== undefined);
});

/** Returns the conditions that are not met now. Empty means that a clearance may be given, or still holds. */
export function findUnmet(state: SessionState, engine: number, now: number): ConditionReport[] {
  return findAll(state, engine, now).filter((r) => r.is !== "yes" && r.is !== "overridden");
}
