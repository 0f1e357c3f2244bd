import { costOf, type OrderCase, PARTS, type Part, type partsOf, type StepParts } from "./orderCost.ts";

/** One start of an order with its cost, part by part, and the accessories that work once this engine runs. */
export interface OrderStep {
  engine: number;
  parts: StepParts;
  alive: string[];
}

/** An order with its cost explained. */
export interface ExplainedOrder {
  order: number[];
  cost: number;
  /** Cost of each part over the whole order. */
  totals: Record<Part, number>;
  steps: OrderStep[];
}

/** Returns the order of `places` with its cost explained. Each place is an index into the engines of the question. */
export function explain(
  question: OrderCase,
  parts: ReturnType<typeof partsOf>,
  places: readonly number[],
): ExplainedOrder {
  const totals: StepParts = { accessories: 0, walk: 0, wind: 0, power: 0, habit: 0 };
  const alive = new Set<string>();
  let placed = 0;
  const steps = places.map((place, i): OrderStep => {
    const cost = parts(placed, places[i - 1] ?? null, place);
    placed |= 1 << place;
    for (const part of PARTS) totals[part] += cost[part];
    const engine = question.engines[place];
    for (const accessory of engine?.accessories ?? []) alive.add(accessory);
    return { engine: engine?.n ?? Number.NaN, parts: cost, alive: [...alive].sort() };
  });
  return { order: steps.map((s) => s.engine), cost: costOf(totals), totals, steps };
}
