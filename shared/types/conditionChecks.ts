import { conditionOf, DEFINITIONS } from "../conditions/all.ts";
import type { Fault } from "./fault.ts";
import type { AircraftType } from "./schema.ts";

/**
 * Reports faults in the conditions that a type lists: a condition whose check the type lacks, and one in `overridable`
 * that may never be set aside. A condition that always applies need not be listed.
 */
export function conditionChecks(type: AircraftType, fault: Fault): void {
  const listed = DEFINITIONS.filter((c) => type.conditions.includes(c.id));
  for (const id of type.overridable) {
    const condition = conditionOf(id);
    if (!condition.mayBeSetAside) fault("overridable", `${id} can never be overridden`);
    if (!listed.includes(condition)) fault("overridable", `${id} is not one of the type's conditions`);
  }
  for (const { id, check } of listed) {
    if (check !== undefined && !type.checks.some((c) => c.id === check)) {
      fault("checks", `the condition ${id} needs a check with the id ${check}`);
    }
  }
}
