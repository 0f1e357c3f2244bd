import { found, type Outcome, refused } from "../models/outcome.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import type { CardItem } from "../types/card.ts";
import { targetOf } from "./target.ts";

/** The figures between which an answer is good, both inside; null on a side without a bound. */
interface CardBounds {
  min: number | null;
  max: number | null;
  unit: Quantity["unit"];
}

/** Smaller differences of two figures are rounding. */
const SAME = 1e-9;

/** Returns the bounds of an item that asks for a figure. Refused, with its name, while what they rest on is unknown. */
export function boundsOf(state: SessionState, { kind }: CardItem): Outcome<CardBounds> {
  if (kind.is !== "range" && kind.is !== "target") return refused("a figure");
  const gauge = state.type.gauges.find((g) => g.id === kind.gauge);
  if (!gauge) return refused(kind.gauge);
  if (kind.is === "range") {
    return found({
      min: kind.min ?? gauge.min ?? null,
      max: kind.max ?? gauge.max ?? null,
      unit: gauge.unit,
    });
  }
  const target = targetOf(state, kind.of, gauge.unit);
  if (!target.ok) return target;
  const { value } = target.value;
  return found({ min: value - kind.within.value, max: value + kind.within.value, unit: gauge.unit });
}

/** Returns whether a figure is within its bounds. */
export function withinBounds({ min, max }: CardBounds, value: number): boolean {
  return (
    value >= (min ?? Number.NEGATIVE_INFINITY) - SAME && value <= (max ?? Number.POSITIVE_INFINITY) + SAME
  );
}
