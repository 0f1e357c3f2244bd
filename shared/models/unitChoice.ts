import type { Quantity, Unit } from "../protocol/quantity.ts";
import { convert } from "./units.ts";

/**
 * Units from which a person may choose. Air pressure has its own choice: a person who reads oil in psi may want the
 * altimeter setting in hPa.
 */
export const UNIT_FAMILIES = {
  pressure: ["psi", "kPa", "bar"],
  airPressure: ["inHg", "hPa"],
  temperature: ["degC", "degF"],
  volume: ["USgal", "L"],
  mass: ["lb", "kg"],
} as const satisfies Record<string, readonly Unit[]>;
export type UnitFamily = keyof typeof UNIT_FAMILIES;

/** Units that one person chose. Figures of an omitted family are shown as they were read. */
export type UnitChoice = { readonly [F in UnitFamily]?: Unit };

export const AS_READ: UnitChoice = {};

const families = Object.keys(UNIT_FAMILIES) as UnitFamily[];
const unitsOf = (family: UnitFamily): readonly Unit[] => UNIT_FAMILIES[family];

/** Returns the unit in which a figure read in `unit` is shown. */
export function chosenUnit(unit: Unit, choice: UnitChoice): Unit {
  const family = families.find((f) => unitsOf(f).includes(unit));
  return (family && choice[family]) ?? unit;
}

/** Returns the quantity in the chosen unit; as it was read when nothing is chosen or it cannot be converted. */
export function inChosen(read: Quantity, choice: UnitChoice): Quantity {
  const unit = chosenUnit(read.unit, choice);
  const got = unit === read.unit ? null : convert(read, unit);
  return got?.ok ? got.value : read;
}

/**
 * Returns a difference of two readings, e.g. a rise of temperature, in the chosen unit: only the size of the units
 * counts, not their zeros.
 */
export function differenceInChosen(read: Quantity, choice: UnitChoice): Quantity {
  const unit = chosenUnit(read.unit, choice);
  if (unit === read.unit) return read;
  const zero = convert({ value: 0, unit: read.unit }, unit);
  const one = convert({ value: 1, unit: read.unit }, unit);
  if (!zero.ok || !one.ok) return read;
  return { value: read.value * (one.value.value - zero.value.value), unit };
}

/** Returns a choice from stored data. Drops entries that are not valid choices. */
export function choiceFrom(kept: unknown): UnitChoice {
  if (typeof kept !== "object" || kept === null) return AS_READ;
  const given = kept as Record<string, unknown>;
  return Object.fromEntries(
    families.filter((f) => unitsOf(f).some((u) => u === given[f])).map((f) => [f, given[f]]),
  );
}
