import { AS_READ, UNIT_FAMILIES, type UnitChoice } from "../models/unitChoice.ts";
import type { Unit } from "../protocol/quantity.ts";
import { beside, figureAlone, written, writtenBoth } from "./quantity.ts";

const CHOSEN: readonly Unit[] = Object.values(UNIT_FAMILIES).flat();
const FIGURE = /^(-?\d+(?:\.\d+)?)(?: to (-?\d+(?:\.\d+)?))? (\S+)$/;

/**
 * Returns the `found` of a finding or a refusal for a reader: a figure or a range with its unit, e.g. "599.9 psi" or "0
 * to 200 psi", in the chosen units; anything else as it is.
 */
export function foundWords(found: string | undefined, units: UnitChoice): string | undefined {
  const [, from, to, word] = FIGURE.exec(found ?? "") ?? [];
  const unit = CHOSEN.find((u) => u === word);
  if (from === undefined || unit === undefined) return found;
  const least = { value: Number(from), unit };
  if (to === undefined) return writtenBoth(least, units);
  const most = { value: Number(to), unit };
  const range = (choice: UnitChoice) => `${figureAlone(least, choice)} to ${written(most, choice)}`;
  return beside(range(units), range(AS_READ));
}
