import type { Quantity, Unit } from "../protocol/quantity.ts";
import { refuse, type Verdict } from "../session/verdict.ts";

/**
 * Returns the refusal of a figure that is missing, in another unit, or below its least possible value; null for a
 * usable one.
 */
export function figureFault(figure: Quantity | undefined, unit: Unit): Verdict | null {
  if (!figure) return refuse("missingFigure", { found: unit });
  if (figure.unit !== unit) return refuse("wrongUnit", { found: unit });
  if (figure.value < 0) return refuse("outOfRange", { found: `${figure.value} ${figure.unit}` });
  return null;
}
