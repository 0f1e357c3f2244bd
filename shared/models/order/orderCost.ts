import type { Source } from "../../types/limit.ts";
import type { Point } from "../geometry/polygon.ts";
import { windOnNose } from "../weather/wind.ts";
import type { MustPrecede } from "./precedence.ts";

/** The parts of an order's cost. */
export const PARTS = ["accessories", "walk", "wind", "power", "habit"] as const;
export type Part = (typeof PARTS)[number];

/** Cost of one start, part by part. */
export type StepParts = Record<Part, number>;

export function costOf(parts: StepParts): number {
  return PARTS.reduce((total, part) => total + parts[part], 0);
}

/** Weight of each part in points. The weights are a judgement, with its source. */
export interface OrderWeights {
  /** Points for each start made before a needed accessory works, times the need's own weight. */
  waitForAccessory: number;
  /** Points for each metre the guard walks. */
  walkMetre: number;
  /** Points for each knot of crosswind and each pair whose downwind engine starts first. */
  downwindFirstKnot: number;
  /** Points for each metre from the power receptacle to an engine that starts before any running engine gives power. */
  powerMetre: number;
  /** Points for each pair that is in the opposite order to the field's habit. */
  againstHabit: number;
  source: Source;
}

export interface OrderCase {
  /** Stations in metres: x aft of the nose, y to starboard. */
  engines: readonly { n: number; x: number; y: number; accessories: readonly string[] }[];
  /** Pairs whose order no advice may reverse. */
  mustPrecede: readonly MustPrecede[];
  /** Accessories that are wanted early, e.g. the brakes' hydraulic pump, each with its weight. */
  needs: readonly { accessory: string; weight: number }[];
  /** The accessory that gives electrical power, e.g. generator. */
  powerAccessory: string;
  receptacle: Point;
  /** Wind in knots over the aircraft's heading; null when calm or unknown. */
  wind: { fromDeg: number; speed: number } | null;
  headingDeg: number;
  /** The field's usual order of all engines. */
  habit: readonly number[];
  weights: OrderWeights;
  /**
   * Returns the metres that the guard walks to `to` from `from` (null: the guard's first place) past running engines;
   * Infinity: no way.
   */
  walk(from: number | null, to: number, running: readonly number[]): number;
}

/** Returns the crosswind, knots, positive from starboard; 0 without wind. */
export function crosswind({ wind, headingDeg }: OrderCase): number {
  return wind ? windOnNose(wind, headingDeg).cross : 0;
}

/**
 * Returns the cost of starting the engine at index `next` of `engines` after the set `placed`, whose last is `last`.
 * Every part depends on those alone, which makes the search over sets exact.
 */
export function partsOf(
  question: OrderCase,
): (placed: number, last: number | null, next: number) => StepParts {
  const { engines, needs, weights, receptacle } = question;
  const cross = crosswind(question);
  const usual = engines.map((e) => question.habit.indexOf(e.n));
  const gives = (accessory: string) =>
    engines.reduce((set, e, i) => (e.accessories.includes(accessory) ? set | (1 << i) : set), 0);
  const power = gives(question.powerAccessory);
  // A need that no engine can meet adds the same to every order, so it is left out.
  const wanted = needs
    .map(({ accessory, weight }) => ({ set: gives(accessory), weight }))
    .filter((n) => n.set !== 0);

  const cost = (placed: number, last: number | null, next: number): StepParts => {
    const engine = engines[next];
    if (!engine) throw new Error(`no engine at place ${next}`);
    const running = engines.filter((_, i) => placed & (1 << i)).map((e) => e.n);
    const later = engines.flatMap((e, i) =>
      placed & (1 << i) || i === next ? [] : [{ e, usual: usual[i] ?? -1 }],
    );
    const unmet = wanted.filter((n) => (n.set & placed) === 0).reduce((sum, n) => sum + n.weight, 0);
    // Upwind is to starboard when the wind comes from there.
    const upwindLeft = later.filter(({ e }) => (e.y - engine.y) * cross > 0).length;
    const poweredBy = placed & power;
    const from = last === null ? null : (engines[last]?.n ?? null);
    const metres = question.walk(from, engine.n, running);
    return {
      accessories: weights.waitForAccessory * unmet,
      walk: metres === Number.POSITIVE_INFINITY ? metres : weights.walkMetre * metres,
      wind: weights.downwindFirstKnot * Math.abs(cross) * upwindLeft,
      power:
        poweredBy === 0
          ? weights.powerMetre * Math.hypot(engine.x - receptacle.x, engine.y - receptacle.y)
          : 0,
      habit: weights.againstHabit * later.filter((l) => l.usual < (usual[next] ?? -1)).length,
    };
  };

  // Cached, because the search meets each step in many orders.
  const known = new Map<number, StepParts>();
  return (placed, last, next) => {
    const key = (placed * (engines.length + 1) + (last ?? engines.length)) * engines.length + next;
    const parts = known.get(key) ?? cost(placed, last, next);
    known.set(key, parts);
    return parts;
  };
}
