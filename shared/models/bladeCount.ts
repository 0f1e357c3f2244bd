import type { Quantity } from "../protocol/quantity.ts";
import { found, type Outcome, outside, refused } from "./outcome.ts";
import { atLeast, convert } from "./units.ts";

/** The amount to turn, in propeller revolutions or in blades. `upTo` is set when the source prints a range. */
export type Turn = { revolutions: number; upTo?: number } | { blades: number; upTo?: number };

/**
 * One case of a type's rule. It applies when the engine has stood longer than `over`, or at least as long as `from`, or
 * always. If `air` is given, it also needs air that is that cold or that warm.
 */
export interface BladeCase {
  idle: "always" | { over: Quantity } | { from: Quantity };
  air?: { below: Quantity } | { from: Quantity };
  turn: Turn;
  /** Blades of each bout, if the source gives the count in bouts, e.g. twice 2, then 12. */
  bouts?: readonly number[];
}

/**
 * The rule that says when an engine must be turned before its start, by whom and how far. Sources disagree, so it is
 * data of the type.
 */
export interface BladeRule {
  method: "hand" | "starter" | "either";
  cases: readonly BladeCase[];
}

export interface Propeller {
  blades: number;
  /** Propeller revolutions per crankshaft revolution. */
  gearRatio: number;
}

export type BladesDue =
  | { due: false }
  | {
      due: true;
      /** Least number of blades to count, and the most that the source names. */
      blades: number;
      most: number;
      method: BladeRule["method"];
      bouts: readonly number[];
      /** True if this number of blades takes every cylinder through one compression. */
      everyCylinder: boolean;
    };

/** Rounds blades up. The subtraction keeps a whole number whole after the arithmetic of gears. */
const wholeUp = (blades: number): number => Math.ceil(blades - 1e-9);

/**
 * Returns the least number of blades that takes every cylinder of a four-stroke engine through one compression: two
 * crankshaft revolutions, 2 · gear ratio · blades, rounded up. Range: 2 to 6 blades, gear ratio above 0 to 1.
 */
export function bladesForEveryCylinder({ blades, gearRatio }: Propeller): Outcome<number> {
  const why = outside("blades", blades, 2, 6) ?? outside("gear ratio", gearRatio, 0.1, 1);
  return why ? refused(why) : found(wholeUp(2 * gearRatio * blades));
}

/**
 * Returns whether turning is due, and how far: of the cases that apply, the one that asks for most. An unknown time or
 * temperature (null) makes a case apply. The rule's own figures decide. A count never rules out hydraulic lock: people
 * feel it while they turn the propeller.
 */
export function bladesDue(
  rule: BladeRule,
  propeller: Propeller,
  stood: Quantity | null,
  air: Quantity | null,
): Outcome<BladesDue> {
  const least = bladesForEveryCylinder(propeller);
  if (!least.ok) return least;
  if (stood && stood.value < 0) return refused(`an engine cannot have stood ${stood.value} ${stood.unit}`);
  let due: BladesDue = { due: false };
  for (const one of rule.cases) {
    const applies = caseApplies(one, stood, air);
    if (!applies.ok) return applies;
    if (!applies.value) continue;
    const blades = bladesOf(one.turn, propeller, "least");
    if (due.due && due.blades >= blades) continue;
    due = {
      due: true,
      blades,
      most: bladesOf(one.turn, propeller, "most"),
      method: rule.method,
      bouts: one.bouts ?? [blades],
      everyCylinder: blades >= least.value,
    };
  }
  return found(due);
}

function bladesOf(turn: Turn, propeller: Propeller, end: "least" | "most"): number {
  const pick = (n: number) => (end === "most" ? (turn.upTo ?? n) : n);
  return "blades" in turn ? pick(turn.blades) : wholeUp(pick(turn.revolutions) * propeller.blades);
}

function caseApplies(one: BladeCase, stood: Quantity | null, air: Quantity | null): Outcome<boolean> {
  const long = one.idle === "always" || !stood ? found(true) : reached(stood, one.idle);
  if (!long.ok) return long;
  if (!one.air || !air) return found(long.value);
  const fits = "from" in one.air ? atLeast(air, one.air.from) : atLeast(air, one.air.below);
  if (!fits.ok) return fits;
  return found(long.value && ("from" in one.air ? fits.value : !fits.value));
}

function reached(stood: Quantity, idle: { over: Quantity } | { from: Quantity }): Outcome<boolean> {
  if ("from" in idle) return atLeast(stood, idle.from);
  // Not `atLeast`: the time must be longer than the limit. Both are compared in the limit's unit.
  const read = convert(stood, idle.over.unit);
  if (!read.ok) return read;
  const within = atLeast(idle.over, read.value);
  return within.ok ? found(!within.value) : within;
}
