import type { ConditionReport } from "../protocol/conditionReport.ts";
import { CONDITION_IDS, type ConditionId } from "../protocol/conditions.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";
import { arcClear } from "./arcClear.ts";
import { areaChecked } from "./areaChecked.ts";
import { bladesCounted } from "./bladesCounted.ts";
import { brakesSet } from "./brakesSet.ts";
import { cartOutputOff } from "./cartOutputOff.ts";
import { chocksIn } from "./chocksIn.ts";
import type { ConditionDefinition, Guarded } from "./definition.ts";
import { extinguisherChecked } from "./extinguisherChecked.ts";
import { fuellingClear } from "./fuellingClear.ts";
import { generatorsCarry } from "./generatorsCarry.ts";
import { groundPowerKnown } from "./groundPowerKnown.ts";
import { guardInPlace } from "./guardInPlace.ts";
import { guardPathClear } from "./guardPathClear.ts";
import { handsOffPropellers } from "./handsOffPropellers.ts";
import { inboardStopped } from "./inboardStopped.ts";
import { lightningClear } from "./lightningClear.ts";
import { noBarringDefect } from "./noBarringDefect.ts";
import { noDrillBars } from "./noDrillBars.ts";
import { noLeaveOut } from "./noLeaveOut.ts";
import { noOtherTurningUp } from "./noOtherTurningUp.ts";
import { noStopOpen } from "./noStopOpen.ts";
import { othersSettled } from "./othersSettled.ts";
import { postsCurrent } from "./postsCurrent.ts";
import { postsHeld } from "./postsHeld.ts";
import { propellersStill } from "./propellersStill.ts";
import { clearanceReport } from "./report.ts";
import { starterCool } from "./starterCool.ts";
import { windWithinLimits } from "./windWithinLimits.ts";

/** Every condition. Its own file holds its definition; everything else is derived from the definition. */
const CONDITIONS = {
  noStopOpen,
  guardInPlace,
  arcClear,
  brakesSet,
  chocksIn,
  groundPowerKnown,
  noOtherTurningUp,
  othersSettled,
  starterCool,
  postsHeld,
  postsCurrent,
  bladesCounted,
  handsOffPropellers,
  propellersStill,
  noLeaveOut,
  noDrillBars,
  extinguisherChecked,
  guardPathClear,
  areaChecked,
  fuellingClear,
  windWithinLimits,
  lightningClear,
  noBarringDefect,
  cartOutputOff,
  generatorsCarry,
  inboardStopped,
} satisfies { [Id in ConditionId]: ConditionDefinition<Id> };

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
  const { conditions } = state.type;
  const listed = conditions.map(conditionOf);
  const others = DEFINITIONS.filter((c) => c.scope.clearance === "always" && !conditions.includes(c.id));
  return [...listed, ...others]
    .filter((condition) => condition.scope.clearance !== undefined)
    .map((condition) => clearanceReport(state, condition, engine, now));
}

/** Returns the conditions that are not met now. Empty means that a clearance may be given, or still holds. */
export function findUnmet(state: SessionState, engine: number, now: number): ConditionReport[] {
  return findAll(state, engine, now).filter((r) => r.is !== "yes" && r.is !== "overridden");
}
