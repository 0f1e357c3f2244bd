import { conditionOf, DEFINITIONS } from "../conditions/all.ts";
import { inboardEngines } from "../models/inboard.ts";
import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
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
  if (type.conditions.includes("attemptsLeft") && type.starter.attempts === undefined)
    fault("starter.attempts", faultText("attemptsAlone"));
  unmet(type, fault);
}

/** Reports conditions that no start of this type could ever meet, and those listed twice. */
function unmet(type: AircraftType, fault: Fault): void {
  for (const key of ["conditions", "overridable", "requiredPosts"] as const) {
    const seen = new Set<string>();
    type[key].forEach((id, i) => {
      if (seen.has(id)) fault(`${key}.${i}`, faultText("listedTwice", id));
      seen.add(id);
    });
  }
  const started = type.engines.filter((e) => type.defaultOrder.includes(e.n));
  if (
    type.conditions.includes("generatorsCarry") &&
    !started.some((e) => e.accessories.includes("generator"))
  )
    fault("conditions", faultText("noGenerator"));
  // These are shut down for the chocks, so another one must be running.
  const inboard = inboardEngines(type);
  if (type.conditions.includes("inboardStopped") && type.defaultOrder.every((n) => inboard.includes(n)))
    fault("conditions", faultText("inboardAlone"));
  type.checks.forEach(({ id, stage }, i) => {
    // A check on which a condition stands is asked for when the condition wants it, whatever its stage.
    const wanted = DEFINITIONS.some((c) => c.check === id && type.conditions.includes(c.id));
    if (!wanted && UNASKED.includes(stage)) fault(`checks.${i}.stage`, faultText("nobodyAsked", stage));
  });
}

/** Stages in which nobody is asked for a check. */
const UNASKED: readonly AircraftType["checks"][number]["stage"][] = ["closed", "abandoned"];
