import type { Quantity } from "../protocol/quantity.ts";
import type { Gauge } from "../types/schema.ts";
import { found, type Outcome, outside } from "./outcome.ts";
import { convert, reaches } from "./units.ts";

/** The marks of a gauge, as the type gives them. */
export type Marks = Pick<Gauge, "name" | "unit" | "scale" | "min" | "normalLow" | "normalHigh" | "max">;

/** `usable`: above the minimum but not normal yet, e.g. oil between its minimum and the green band. */
export type Band = "belowMin" | "usable" | "normal" | "caution" | "over";

/**
 * Returns the band of a reading by a gauge's marks, compared in the gauge's unit. A reading on a mark is in the better
 * of the two bands. A missing mark divides nothing: without `normalLow` every reading above `min` is normal, without
 * `normalHigh` every reading below `max` is. Refuses a reading off the instrument's scale.
 */
export function gaugeBand(marks: Marks, reading: Quantity): Outcome<Band> {
  const read = convert(reading, marks.unit);
  if (!read.ok) return read;
  const { value } = read.value;
  const why = outside(marks.name, value, marks.scale.from, marks.scale.to, marks.unit);
  if (why) return { ok: false, why };
  if (marks.max !== undefined && !reaches(marks.max, value)) return found("over");
  if (marks.normalHigh !== undefined && !reaches(marks.normalHigh, value)) return found("caution");
  if (marks.min !== undefined && !reaches(value, marks.min)) return found("belowMin");
  if (marks.normalLow !== undefined && !reaches(value, marks.normalLow)) return found("usable");
  return found("normal");
}
