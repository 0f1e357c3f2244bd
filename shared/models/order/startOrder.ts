import { found, type Outcome, refused } from "../outcome.ts";
import { type CheapestOrder, cheapestOrder } from "./cheapestOrder.ts";
import { type ExplainedOrder, explain } from "./explainedOrder.ts";
import { costOf, type OrderCase, partsOf } from "./orderCost.ts";
import { type OrderReason, reasonsFor } from "./orderReasons.ts";
import { precedenceSets } from "./precedence.ts";

export interface OrderAdvice {
  best: ExplainedOrder;
  reasons: OrderReason[];
  /** The field's habit explained the same way; null when it cannot be kept here. */
  habit: ExplainedOrder | null;
  /** For each engine: the best order that begins with it, and what that costs more; null when none may. */
  firsts: { engine: number; order: number[] | null; extra: number | null }[];
}

const MOST_ENGINES = 8;

/**
 * The start order that costs least by the parts of `OrderCase`, exactly, for up to 8 engines; why; and what each other
 * first engine would cost. Advice alone: the order is the crew's. Refused when precedence runs in a circle (with
 * `circle`), or no order lets the guard reach every place.
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

/** True when every item comes after what must precede it. */
function keeps(places: readonly number[], after: readonly number[]): boolean {
  let placed = 0;
  return places.every((place) => {
    const ready = ((after[place] ?? 0) & ~placed) === 0;
    placed |= 1 << place;
    return ready;
  });
}
