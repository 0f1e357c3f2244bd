import type { Quantity } from "../protocol/quantity.ts";
import type { Gauge } from "../types/schema.ts";
import { found, type Outcome, outside } from "./outcome.ts";
import { atLeast, convert } from "./units.ts";

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
  const isAtLeast = (mark: number) => reaches(value, mark, marks.unit);
  const isAtMost = (mark: number) => reaches(mark, value, marks.unit);
  if (marks.max !== undefined && !isAtMost(marks.max)) return found("over");
  if (marks.normalHigh !== undefined && !isAtMost(marks.normalHigh)) return found("caution");
  if (marks.min !== undefined && !isAtLeast(marks.min)) return found("belowMin");
  if (marks.normalLow !== undefined && !isAtLeast(marks.normalLow)) return found("usable");
  return found("normal");
}

function reaches(value: number, mark: number, unit: Quantity["unit"]): boolean {
  const answer = atLeast({ value, unit }, { value: mark, unit });
  return answer.ok && answer.value;
}
