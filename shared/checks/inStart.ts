import { applies, DEFINITIONS } from "../conditions/all.ts";
import type { CheckedCondition, ConditionDefinition, Guarded } from "../conditions/definition.ts";
import { onceFor } from "../derived/onceFor.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType, Check } from "../types/schema.ts";

/**
 * Returns whether this start asks for a check at all. A start on batteries asks for ground power's checks only if a
 * condition other than those for connecting a cart needs them, or if they read a battery.
 */
export function inStart(state: SessionState, check: Check): boolean {
  if (check.post !== "groundPower" || state.powerSource === "groundPower") return true;
  return (
    readsBattery(state, check.id) ||
    standingOn(state, check).some((c) => guardedBy(state.type, c).some((g) => g !== "connectPower"))
  );
}

function readsBattery({ type }: SessionState, check: string): boolean {
  const batteries = type.electrical?.batteries ?? [];
  return batteries.some((b) => [b.check, b.gravity?.check, b.gravity?.temperature].includes(check));
}

/** The conditions that depend on a check and apply, with each type. */
const checkedOf = onceFor((type: AircraftType) =>
  DEFINITIONS.filter((c): c is CheckedCondition => c.check !== undefined && guardedBy(type, c).length > 0),
);

/** Returns the conditions that depend on a check and apply with this type. */
export function standingOn({ type }: SessionState, check: Check): CheckedCondition[] {
  return checkedOf(type).filter((c) => c.check === check.id);
}

function guardedBy(type: AircraftType, condition: ConditionDefinition): Guarded[] {
  return (Object.keys(condition.scope) as Guarded[]).filter((g) => applies(type, condition, g));
}
