import type { Unit } from "../../shared/protocol/quantity.ts";

/** What a figure is entered on: the instrument's scale, its bands, and where to begin. */
export interface FigureSpec {
  label: string;
  unit: Unit;
  from: number;
  to: number;
  /** One touch of the fine key; the coarse key is ten of them. */
  step: number;
  /** Where the entry begins: the last reading, or the middle of what is usual. */
  start: number;
  /** It was read before: the start is a reading, not what is usual. */
  read: boolean;
  /** In words where it begins from, e.g. "last read 28.0 V, 40 s ago". */
  startWords: string;
  /** What is good, when the type says so. */
  low: number | null;
  high: number | null;
  /** What follows from a figure while it is entered, in words. */
  told?: (value: number) => string;
}

/** Onto the scale and onto a step of it. */
export function onScale(spec: FigureSpec, value: number): number {
  const steps = Math.round((value - spec.from) / spec.step);
  const stepped = spec.from + steps * spec.step;
  return Number(Math.min(spec.to, Math.max(spec.from, stepped)).toFixed(4));
}

export function isGood(spec: FigureSpec, value: number): boolean {
  return value >= (spec.low ?? Number.NEGATIVE_INFINITY) && value <= (spec.high ?? Number.POSITIVE_INFINITY);
}
