import type { ExplainedOrder } from "./explainedOrder.ts";
import { crosswind, type OrderCase, PARTS, type Part } from "./orderCost.ts";

/** A reason why an order is advised: a code and its figures. The catalogues hold the words. */
export type OrderReason =
  /** The order of this pair may not be reversed. */
  | { code: "mustPrecede"; before: number; after: number }
  /** This engine, at this place counted from 1, is the first that drives the accessory. */
  | { code: "brings"; engine: number; accessory: string; place: number }
  /** A wanted accessory that no engine drives. */
  | { code: "nobodyBrings"; accessory: string }
  /** Upwind engines start first; `turned` pairs start the other way. Knots, without sign. */
  | { code: "upwindFirst"; from: "port" | "starboard"; crosswindKt: number; turned: number }
  /** Distance of the first engine from the receptacle; `nearest` when no engine is nearer. Metres. */
  | { code: "power"; engine: number; metres: number; nearest: boolean }
  /** Metres of the guard's whole walk, and of the walk in the habit's order if that is possible. */
  | { code: "walk"; metres: number; habitMetres: number | null }
  | { code: "asUsual" }
  /** Points saved against the usual order, and the part that saves the most. */
  | { code: "betterThanUsual"; saved: number; most: Part }
  | { code: "usualImpossible" };

/** Returns every reason for the best order, in a fixed sequence. */
export function reasonsFor(
  question: OrderCase,
  best: ExplainedOrder,
  habit: ExplainedOrder | null,
): OrderReason[] {
  return [
    ...question.mustPrecede.map(({ before, after }) => ({ code: "mustPrecede" as const, before, after })),
    ...question.needs.map(({ accessory }) => bringer(best, accessory)),
    ...upwind(question, best),
    ...power(question, best),
    { code: "walk", metres: walked(question, best), habitMetres: habit ? walked(question, habit) : null },
    usual(best, habit),
  ];
}

function bringer(best: ExplainedOrder, accessory: string): OrderReason {
  const place = best.steps.findIndex((s) => s.alive.includes(accessory));
  const step = best.steps[place];
  return step
    ? { code: "brings", engine: step.engine, accessory, place: place + 1 }
    : { code: "nobodyBrings", accessory };
}

function upwind(question: OrderCase, best: ExplainedOrder): OrderReason[] {
  const cross = crosswind(question);
  const station = new Map(question.engines.map((e) => [e.n, e.y]));
  const ys = best.order.map((n) => station.get(n) ?? Number.NaN);
  const turned = ys.reduce(
    (count, y, i) => count + ys.slice(i + 1).filter((later) => (later - y) * cross > 0).length,
    0,
  );
  if (cross === 0) return [];
  return [
    { code: "upwindFirst", from: cross > 0 ? "starboard" : "port", crosswindKt: Math.abs(cross), turned },
  ];
}

function power({ engines, receptacle }: OrderCase, best: ExplainedOrder): OrderReason[] {
  const far = engines.map((e) => ({ n: e.n, metres: Math.hypot(e.x - receptacle.x, e.y - receptacle.y) }));
  const first = far.find((e) => e.n === best.order[0]);
  if (!first) return [];
  return [
    {
      code: "power",
      engine: first.n,
      metres: first.metres,
      nearest: far.every((e) => e.metres >= first.metres),
    },
  ];
}

function walked({ walk }: OrderCase, { order }: ExplainedOrder): number {
  return order.reduce((sum, n, i) => sum + walk(order[i - 1] ?? null, n, order.slice(0, i)), 0);
}

function usual(best: ExplainedOrder, habit: ExplainedOrder | null): OrderReason {
  if (!habit) return { code: "usualImpossible" };
  if (habit.order.join() === best.order.join()) return { code: "asUsual" };
  const saves = (part: Part) => habit.totals[part] - best.totals[part];
  const most = PARTS.reduce((a, b) => (saves(b) > saves(a) ? b : a));
  return { code: "betterThanUsual", saved: habit.cost - best.cost, most };
}
