import { AS_READ, differenceInChosen, inChosen, type UnitChoice } from "../models/unitChoice.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import { unitWord } from "./units.ts";

/** A quantity as a record holds it. This version may not know its unit any more; then it is written as it is. */
interface Recorded {
  value: number;
  unit: string;
}

/** Options for writing a reading. */
export interface How {
  /** The instrument's step, in the unit of the reading; without it, the figure's own last decimal. */
  step?: number | undefined;
  /** A difference of two readings, e.g. a rise of temperature. */
  difference?: boolean | undefined;
}

const MOST_DECIMALS = 6;
/** Most decimals: no instrument here is read more finely. */
const READ_DECIMALS = 3;
const BEHIND_THE_POINT = /(?:\.(\d+))?(?:e([+-]?\d+))?$/;

/** Returns the number of decimals with which a number is written. */
function decimalsOf(value: number): number {
  const [, behind = "", power = "0"] = BEHIND_THE_POINT.exec(String(value)) ?? [];
  return Math.min(MOST_DECIMALS, Math.max(0, behind.length - Number(power)));
}

const withUnit = (figure: string, unit: Unit): string => `${figure} ${unitWord(unit)}`.trim();

/**
 * Returns a reading in the chosen unit, e.g. "310 kPa" for 45 psi, with enough digits to be converted back to the
 * instrument's step.
 */
export function written(read: Recorded, choice: UnitChoice = AS_READ, how: How = {}): string {
  return withUnit(...figureAndUnit(read as Quantity, choice, how));
}

/** Returns the figure without its unit, for a column whose heading gives the unit. */
export function figureAlone(read: Quantity, choice: UnitChoice = AS_READ, how: How = {}): string {
  return figureAndUnit(read, choice, how)[0];
}

function figureAndUnit(read: Quantity, choice: UnitChoice, { step, difference }: How): [string, Unit] {
  const shown = difference ? differenceInChosen(read, choice) : inChosen(read, choice);
  if (shown.unit === read.unit)
    return [step === undefined ? String(read.value) : read.value.toFixed(decimalsOf(step)), read.unit];
  const own = { value: step ?? 10 ** -decimalsOf(read.value), unit: read.unit };
  const size = differenceInChosen(own, choice).value;
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, Math.ceil(-Math.log10(size) - 1e-9)));
  return [positiveZero(shown.value.toFixed(decimals)), shown.unit];
}

/** Returns the same with the original reading behind it, if the two differ: "310 kPa (45 psi)". */
export function writtenBoth(read: Recorded, choice: UnitChoice, how: How = {}): string {
  return beside(written(read, choice, how), written(read, AS_READ, how));
}

/**
 * Returns a worked-out figure in the chosen unit: three significant digits, at most two decimals, or three for a plain
 * number such as a specific gravity. A dash for none.
 */
export function workedOut(
  value: number | string | null,
  unit: Unit | null,
  choice: UnitChoice = AS_READ,
  difference = false,
): string {
  if (value === null) return "–";
  if (typeof value === "string") return unit === null ? value : withUnit(value, unit);
  if (unit === null) return rounded(value);
  const own = { value, unit };
  const shown = difference ? differenceInChosen(own, choice) : inChosen(own, choice);
  return withUnit(rounded(shown.value, shown.unit === "count" ? 3 : 2), shown.unit);
}

/**
 * Returns an input of a worked-out figure: as it was read or set, to its last digit, followed by the same in its own
 * unit if that differs. An input with many digits was itself worked out, and is rounded.
 */
export function inputWords(
  value: number | string | null,
  unit: Unit | null,
  choice: UnitChoice,
  difference = false,
): string {
  if (typeof value === "number" && unit !== null && decimalsOf(value) <= READ_DECIMALS)
    return writtenBoth({ value, unit }, choice, { difference });
  return beside(workedOut(value, unit, choice, difference), workedOut(value, unit));
}

/** Returns the shown figure, with the original in brackets when it differs. */
export const beside = (shown: string, own: string) => (shown === own ? own : `${shown} (${own})`);

function rounded(value: number, most = 2): string {
  const size = Math.abs(value);
  return positiveZero(value.toFixed(size >= 100 || Number.isInteger(value) ? 0 : size >= 10 ? 1 : most));
}

/** Turns "-0.0" into zero. */
function positiveZero(text: string): string {
  return Number(text) === 0 ? text.replace("-", "") : text;
}
