import { blastZone } from "../models/geometry/blastZone.ts";
import { jetOf } from "../models/geometry/jetOf.ts";
import type { Polygon } from "../models/geometry/polygon.ts";
import { propellerOf, turningArc } from "../models/geometry/propeller.ts";
import { guardWalks } from "../models/order/guardWalks.ts";
import type { OrderCase } from "../models/order/orderCost.ts";
import { adviseOrder, type OrderAdvice } from "../models/order/startOrder.ts";
import { found, type Outcome, refused } from "../models/outcome.ts";
import { convert, inUnit } from "../models/units.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";

/** The inputs of the advice on an order: the engines to start, and wind and heading as far as they are known. */
export interface OrderQuestion {
  type: AircraftType;
  engines: readonly number[];
  wind: { fromDeg: number; speed: number } | null;
  headingDeg: number | null;
}

/** Returns the question of a session: its order's engines, with the wind as last read. */
export function questionOf(state: SessionState, engines: readonly number[] = state.order): OrderQuestion {
  const seen = state.weather;
  const fromDeg = seen?.fromDeg ?? null;
  return {
    type: state.type,
    engines,
    wind: seen && fromDeg !== null ? { fromDeg, speed: seen.windKt } : null,
    headingDeg: state.headingDeg ?? null,
  };
}

/** Returns the question of a plan, when nobody has read the wind yet. */
export function questionFor(
  type: AircraftType,
  engines: readonly number[],
  headingDeg: number | undefined,
): OrderQuestion {
  return { type, engines, wind: null, headingDeg: headingDeg ?? null };
}

/** Returns the advice on the start order by the type's figures; refused where the type has none. */
export function orderAdvice(question: OrderQuestion): Outcome<OrderAdvice> {
  const asked = orderCase(question);
  return asked.ok ? adviseOrder(asked.value) : asked;
}

/** Returns the advised order and what another order costs more; null when there is no advice, or nothing to compare. */
export function adviceOn(
  question: OrderQuestion,
  order: readonly number[],
): { order: number[]; extra: number | null } | null {
  const asked = orderCase(question);
  if (!asked.ok) return null;
  const advice = adviseOrder(asked.value);
  if (!advice.ok) return null;
  const own = adviseOrder({ ...asked.value, habit: order });
  const extra = own.ok && own.value.habit ? costAlone(asked.value, order) - advice.value.best.cost : null;
  return { order: advice.value.best.order, extra: extra === null ? null : Math.round(extra * 10) / 10 };
}

/** Returns an order's cost by the same weights, including its pairs against the field's habit. */
function costAlone(asked: OrderCase, order: readonly number[]): number {
  const pairs = order
    .map((n, i) => ({ before: n, after: order[i + 1] ?? n }))
    .filter((p) => p.before !== p.after);
  const only = adviseOrder({ ...asked, mustPrecede: pairs });
  return only.ok ? only.value.best.cost : Number.NaN;
}

function orderCase({ type, engines, wind, headingDeg }: OrderQuestion): Outcome<OrderCase> {
  const rules = type.order;
  if (!rules) return refused("the type gives no weights for an order");
  const walk = walkOf(type);
  if (!walk.ok) return walk;
  const chosen = type.engines.filter((e) => engines.includes(e.n));
  return found({
    engines: chosen,
    mustPrecede: rules.mustPrecede.filter((p) => engines.includes(p.before) && engines.includes(p.after)),
    needs: rules.needs.map((n) => ({ accessory: n.accessory, weight: n.weight.value })),
    powerAccessory: rules.powerAccessory,
    receptacle: type.plan.receptacle,
    // Without a heading the side of the wind is unknown.
    wind: headingDeg === null ? null : wind,
    headingDeg: headingDeg ?? 0,
    habit: type.defaultOrder.filter((n) => engines.includes(n)),
    weights: {
      waitForAccessory: rules.weights.waitForAccessory.value,
      walkMetre: rules.weights.walkMetre.value,
      downwindFirstKnot: rules.weights.downwindFirstKnot.value,
      powerMetre: rules.weights.powerMetre.value,
      againstHabit: rules.weights.againstHabit.value,
      source: rules.weights.walkMetre.source,
    },
    walk: walk.value,
  });
}

/** Returns the guard's walks; without a rule for the guard no walk is counted. */
function walkOf(type: AircraftType): Outcome<OrderCase["walk"]> {
  const guard = type.ramp?.guard;
  if (!guard) return found(() => 0);
  const metres = (limit: Parameters<typeof inUnit>[0]) => inUnit(limit, "m");
  return guardWalks({
    type,
    waits: guard.waits,
    rule: {
      standOff: metres(guard.standOff),
      ahead: metres(guard.ahead),
      aheadMost: metres(guard.aheadMost),
    },
    closedBy: (n) => closedBy(type, n),
  });
}

/**
 * Returns the ground that a turning engine closes: its arc, and its stream if the type gives a limit for the guard's
 * walk.
 */
export function closedBy(type: AircraftType, n: number): Polygon[] {
  const guard = type.ramp?.guard;
  const propeller = propellerOf(type, n);
  if (!guard || !propeller) return [];
  const arc = turningArc(propeller, inUnit(guard.arcMargin, "m"));
  const stream = guard.stream ? convert(guard.stream, "m/s") : null;
  const jet = jetOf(type);
  if (!stream?.ok || !jet.ok) return [arc];
  const zone = blastZone(propeller, jet.value.jet, stream.value.value, jet.value.assumption);
  return zone ? [arc, zone.polygon] : [arc];
}
