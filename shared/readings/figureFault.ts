import type { Quantity, Unit } from "../protocol/quantity.ts";
import { refuse, type Verdict } from "../session/verdict.ts";

/** Refuses a figure that is missing, in another unit, or below nothing; null for one that can be taken. */
export function figureFault(figure: Quantity | undefined, unit: Unit): Verdict | null {
  if (!figure) return refuse("missingFigure", { found: unit });
  if (figure.unit !== unit) return refuse("wrongUnit", { found: unit });
  if (figure.value < 0) return refuse("outOfRange", { found: `${figure.value} ${figure.unit}` });
  return null;
}
