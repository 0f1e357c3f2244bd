import type { SessionState } from "../session/state.ts";
import { arcClear } from "./arcClear.ts";
import { brakesSet } from "./brakesSet.ts";
import { chocksIn } from "./chocksIn.ts";
import type { Condition, ConditionId, ConditionReport } from "./condition.ts";
import { groundPowerKnown } from "./groundPowerKnown.ts";
import { guardInPlace } from "./guardInPlace.ts";
import { noOtherTurningUp } from "./noOtherTurningUp.ts";
import { noStopOpen } from "./noStopOpen.ts";
import { othersSettled } from "./othersSettled.ts";
import { postsHeld } from "./postsHeld.ts";
import { starterCool } from "./starterCool.ts";

const CONDITIONS: Readonly<Record<ConditionId, Condition>> = {
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
};

/** Every condition the type applies, answered for one engine at one moment, in the type's order. */
export function findAll(state: SessionState, engine: number, now: number): ConditionReport[] {
  return state.type.conditions.map((id) => {
    const condition = CONDITIONS[id];
    const finding = condition.find(state, engine, now);
    const age = finding.at === null ? null : now - finding.at;
    return { id, owners: condition.owners, ...finding, age };
  });
}

/** The conditions not met now. Empty means a clearance may be issued, or still stands. */
export function findUnmet(state: SessionState, engine: number, now: number): ConditionReport[] {
  return findAll(state, engine, now).filter((r) => r.is !== "yes");
}
