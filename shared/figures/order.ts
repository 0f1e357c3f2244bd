import { PARTS } from "../models/order/orderCost.ts";
import type { OrderReason } from "../models/order/orderReasons.ts";
import { type OrderQuestion, orderAdvice, questionOf } from "../plan/orderAdvice.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy } from "../weather/weather.ts";
import { accessoryWords } from "./accessoryWords.ts";
import { cautions, type Figure, type FigureInput, notRead, ofTypeData, said } from "./figure.ts";

/**
 * Returns the start order advised now, with its reasons and the extra cost of each other first engine; null in a return.
 */
export function orderFigure(state: SessionState): Figure | null {
  if (state.returning) return null;
  const seen = state.weather;
  const wind = seen ? said("wind", { value: seen.windKt, unit: "kt" }, seenBy(seen)) : notRead("wind");
  return adviceFigure(questionOf(state), state.order, wind);
}

/** Returns the same while a start is being planned, when nobody has read the wind yet. */
export function plannedOrderFigure(question: OrderQuestion, order: readonly number[]): Figure | null {
  return adviceFigure(question, order, notRead("wind"));
}

function adviceFigure(question: OrderQuestion, order: readonly number[], wind: FigureInput): Figure | null {
  const rules = question.type.order;
  if (!rules) return null;
  const advice = orderAdvice(question);
  const base = {
    id: "order",
    words: "order",
    unit: null,
    equation: "least sum over all orders of accessories waited for, guard's walk, wind, power and habit",
    source: "exact search over sets (Held and Karp 1962)",
  };
  const given: FigureInput[] = [
    wind,
    {
      name: "heading of the nose, degrees",
      value: question.headingDeg,
      unit: null,
      source: question.headingDeg === null ? "not planned" : "the plan",
      at: null,
    },
    { name: "order planned", value: order.join("-"), unit: null, source: "the plan", at: null },
    ...PARTS.map((part) => {
      const key = (
        {
          accessories: "waitForAccessory",
          walk: "walkMetre",
          wind: "downwindFirstKnot",
          power: "powerMetre",
          habit: "againstHabit",
        } as const
      )[part];
      return ofTypeData(`weight, ${part}`, rules.weights[key].value, rules.weights[key].source);
    }),
  ];
  if (!advice.ok) return { ...base, value: null, verdict: "unknown", inputs: given, ...cautions(advice.why) };
  const { best, reasons, firsts } = advice.value;
  const why = reasons.map(
    (r): FigureInput => ({
      name: "because",
      value: reasonWords(r),
      unit: null,
      source: "worked out",
      at: null,
    }),
  );
  const others = firsts.map(
    (f): FigureInput => ({
      name: `number ${f.engine} first`,
      value: f.extra === null ? "not possible" : f.extra,
      unit: null,
      source: f.order ? `${f.order.join("-")}, points more` : "not possible",
      at: null,
    }),
  );
  const same = best.order.join() === order.join();
  return {
    ...base,
    value: best.order.join("-"),
    verdict: same ? "good" : "caution",
    detail: [
      ...reasons.slice(0, 1).map(reasonWords),
      ...(same ? [] : [`the plan has ${order.join("-")}`]),
    ].join("; "),
    inputs: [...why, ...others, ...given],
    ...cautions("Advice alone: the order is the crew's.", !same && "The plan has another order."),
  };
}

function reasonWords(reason: OrderReason): string {
  const whole = (n: number) => String(Math.round(n));
  switch (reason.code) {
    case "mustPrecede":
      return `number ${reason.before} must come before number ${reason.after}`;
    case "brings":
      return `number ${reason.engine}, in place ${reason.place}, is the first with ${accessoryWords(reason.accessory)}`;
    case "nobodyBrings":
      return `no engine brings ${accessoryWords(reason.accessory)}`;
    case "upwindFirst":
      return `${whole(reason.crosswindKt)} kt across from ${reason.from}: upwind first, ${reason.turned} pairs otherwise`;
    case "power":
      return `number ${reason.engine} stands ${whole(reason.metres)} m from the receptacle${reason.nearest ? ", none is nearer" : ""}`;
    case "walk":
      return `the guard walks ${whole(reason.metres)} m${reason.habitMetres === null ? "" : `, ${whole(reason.habitMetres)} m on the usual order`}`;
    case "asUsual":
      return "it is the usual order";
    case "betterThanUsual":
      return `it saves ${whole(reason.saved)} points on the usual order, most in ${reason.most}`;
    case "usualImpossible":
      return "the usual order is not possible here";
  }
}

/** Turns `hydraulicPump` into "hydraulic pump". */
