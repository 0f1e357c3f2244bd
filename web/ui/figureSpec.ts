import type { Unit } from "../../shared/protocol/quantity.ts";

/** Data of a figure's entry: the instrument's scale, its bands and the start value. */
export interface FigureSpec {
  label: string;
  unit: Unit;
  from: number;
  to: number;
  /** Change by one touch of the fine key; the coarse key changes by ten. */
  step: number;
  /** The figure from which step keys begin: the last reading, or the middle of the usual range. Never a limit. */
  start: number;
  /** The last reading; null when there is none. */
  before: number | null;
  /** The last reading in words with its age, or that there is none. */
  startWords: string;
  /** The good band, when the type defines one. */
  low: number | null;
  high: number | null;
  /** Returns the result of a figure in words, during the entry. */
  result?: (value: number) => string;
}

/** Returns `value` limited to the scale and rounded to its step. */
export function onScale(spec: FigureSpec, value: number): number {
  const steps = Math.round((value - spec.from) / spec.step);
  const stepped = spec.from + steps * spec.step;
  return Number(Math.min(spec.to, Math.max(spec.from, stepped)).toFixed(4));
}

export function isGood(spec: FigureSpec, value: number): boolean {
  return value >= (spec.low ?? Number.NEGATIVE_INFINITY) && value <= (spec.high ?? Number.POSITIVE_INFINITY);
}
