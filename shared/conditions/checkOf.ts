import type { ConditionId } from "../protocol/conditions.ts";

/** Conditions that stand on a check of the type, and that check's id. */
export const CHECK_OF: Readonly<Partial<Record<ConditionId, string>>> = {
  extinguisherChecked: "extinguisher",
  areaChecked: "area",
  fuellingClear: "fuelling",
  cartOutputOff: "cartOutputOff",
  generatorsCarry: "generatorsCarry",
};
