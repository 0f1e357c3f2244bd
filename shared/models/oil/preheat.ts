import type { Quantity } from "../../protocol/quantity.ts";
import { found, type Outcome } from "../outcome.ts";
import { atLeast } from "../units.ts";

/**
 * The rule that says when an engine is heated before its start, as data of the type: it stood in air colder than
 * `below` and, if the source says so, for at least `soak`. E.g. below 10 °F (Lycoming Service Instruction 1505); below
 * 20 °F for 2 h (another maker's manual of 2011).
 */
export interface PreheatRule {
  below: Quantity;
  soak?: Quantity;
}

export type Preheat = "required" | "notRequired";

/**
 * Returns the advice from the coldest air in which the engine stood, and for how long. An unknown time (null) counts as
 * long enough. Limits are compared in their own unit. Warm cylinders do not prove warm oil: ask for the temperature of
 * the oil too.
 */
export function preheat(rule: PreheatRule, coldest: Quantity, stood: Quantity | null): Outcome<Preheat> {
  const warm = atLeast(coldest, rule.below);
  if (!warm.ok) return warm;
  if (warm.value) return found("notRequired");
  if (!rule.soak || !stood) return found("required");
  const soaked = atLeast(stood, rule.soak);
  if (!soaked.ok) return soaked;
  return found(soaked.value ? "required" : "notRequired");
}
