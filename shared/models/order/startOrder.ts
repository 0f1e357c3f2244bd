import { found, type Outcome, refused } from "../outcome.ts";
import { type CheapestOrder, cheapestOrder } from "./cheapestOrder.ts";
import { type ExplainedOrder, explain } from "./explainedOrder.ts";
import { costOf, type OrderCase, partsOf } from "./orderCost.ts";
import { type OrderReason, reasonsFor } from "./orderReasons.ts";
import { precedenceSets } from "./precedence.ts";

export interface OrderAdvice {
  best: ExplainedOrder;
  reasons: OrderReason[];
  /** The order of the field's habit, explained in the same way; null when it cannot be kept here. */
  habit: ExplainedOrder | null;
  /**
   * For each engine: the best order that begins with it, and how much more that costs; null when no such order is
   * allowed.
   */
  firsts: { engine: number; order: number[] | null; extra: number | null }[];
}

const MOST_ENGINES = 8;

/**
 * Returns the start order of exactly the least cost by the parts of `OrderCase`, for up to 8 engines, with its reasons
 * and the cost of each other first engine. It is advice: the crew chooses the order. Refused when the precedence has a
 * circle (with `circle`), or when no order lets the guard reach every place.
 */
export function adviseOrder(
  question: OrderCase,
): Outcome<OrderAdvice> | { ok: false; why: string; circle: number[] } {
  const engines = question.engines.map((e) => e.n);
  if (engines.length === 0 || engines.length > MOST_ENGINES)
    return refused(`an order has 1 to ${MOST_ENGINES} engines`);
  const sets = precedenceSets(engines, question.mustPrecede);
  if (!sets.ok) return sets;

  const parts = partsOf(question);
  const search = (first: number | null): CheapestOrder | null =>
    cheapestOrder(
      {
        count: engines.length,
        after: sets.value,
        step: (soFar, placed, last, next) => soFar + costOf(parts(placed, last, next)),
      },
      first,
    );
  const byFirst = engines.map((engine, i) => ({ engine, found: search(i) }));
  const least = byFirst.reduce<CheapestOrder | null>(
    (best, { found }) => (found && (!best || found.cost < best.cost) ? found : best),
    null,
  );
  if (!least) return refused("the guard cannot reach every place in any order");

  const best = explain(question, parts, least.order);
  const places = question.habit.map((n) => engines.indexOf(n)).filter((i) => i >= 0);
  const kept =
    places.length === engines.length && keeps(places, sets.value) ? explain(question, parts, places) : null;
  const habit = kept && Number.isFinite(kept.cost) ? kept : null;
  return found({
    best,
    reasons: reasonsFor(question, best, habit),
    habit,
    firsts: byFirst.map(({ engine, found }) => ({
      engine,
      order: found ? found.order.map((i) => engines[i] ?? Number.NaN) : null,
      extra: found ? found.cost - least.cost : null,
    })),
  });
}

/** Returns true when every item comes after the items that must precede it. */
function keeps(places: readonly number[], after: readonly number[]): boolean {
  let placed = 0;
  return places.every((place) => {
    const ready = ((after[place] ?? 0) & ~placed) === 0;
    placed |= 1 << place;
    return ready;
  });
}
