import { overriddenBy } from "../overrides/overridden.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { SessionState } from "../session/state.ts";
import { arcClear } from "./arcClear.ts";
import { areaChecked } from "./areaChecked.ts";
import { bladesCounted } from "./bladesCounted.ts";
import { brakesSet } from "./brakesSet.ts";
import { chocksIn } from "./chocksIn.ts";
import type { Condition } from "./condition.ts";
import { extinguisherChecked } from "./extinguisherChecked.ts";
import { fuellingClear } from "./fuellingClear.ts";
import { groundPowerKnown } from "./groundPowerKnown.ts";
import { guardInPlace } from "./guardInPlace.ts";
import { guardPathClear } from "./guardPathClear.ts";
import { handsOffPropellers } from "./handsOffPropellers.ts";
import { lightningClear } from "./lightningClear.ts";
import { noBarringDefect } from "./noBarringDefect.ts";
import { noOtherTurningUp } from "./noOtherTurningUp.ts";
import { noStopOpen } from "./noStopOpen.ts";
import { othersSettled } from "./othersSettled.ts";
import { postsCurrent } from "./postsCurrent.ts";
import { postsHeld } from "./postsHeld.ts";
import { starterCool } from "./starterCool.ts";
import { windWithinLimits } from "./windWithinLimits.ts";

/** The conditions a clearance can stand on. Those of services are in `services.ts`. */
const CLEARANCE_CONDITIONS: Readonly<Partial<Record<ConditionId, Condition>>> = {
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
  extinguisherChecked,
  guardPathClear,
  areaChecked,
  fuellingClear,
  windWithinLimits,
  lightningClear,
  noBarringDefect,
};

/** Every condition the type applies, answered for one engine at one moment, in the type's order. */
export function findAll(state: SessionState, engine: number, now: number): ConditionReport[] {
  return state.type.conditions.flatMap((id): ConditionReport[] => {
    const condition = CLEARANCE_CONDITIONS[id];
    if (!condition) return [];
    const finding = condition.find(state, engine, now);
    const age = finding.at === null ? null : now - finding.at;
    const report = { id, owners: condition.owners, ...finding, age };
    if (finding.is === "yes" || !overriddenBy(state, id, engine)) return [report];
    return [{ ...report, is: "overridden" }];
  });
}

/** The conditions not met now. Empty means a clearance may be issued, or still stands. */
export function findUnmet(state: SessionState, engine: number, now: number): ConditionReport[] {
  return findAll(state, engine, now).filter((r) => r.is !== "yes" && r.is !== "overridden");
}
