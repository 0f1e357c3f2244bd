import { type Convex, convex } from "../geometry/convex.ts";
import { type GuardRule, guardStation } from "../geometry/guardStation.ts";
import type { Point, Polygon } from "../geometry/polygon.ts";
import { type PropellerType, propellerOf } from "../geometry/propeller.ts";
import { walkAround } from "../geometry/walk.ts";
import { found, type Outcome, refused } from "../outcome.ts";
import type { OrderCase } from "./orderCost.ts";

/** The guard's places and closed ground. */
export interface GuardGround {
  type: PropellerType;
  /** The guard's place before the first start. */
  waits: Point;
  rule: GuardRule;
  /** Ground that an engine closes while it turns: its arc and its stream, convex. */
  closedBy(engine: number): readonly Polygon[];
}

/** Ground that is closed while some engines run, and the guard's places for it. */
interface Ground {
  closed: Convex[];
  places: Map<number, Point | null>;
}

/**
 * Returns the metres from one engine's place to the next past running engines, for `OrderCase.walk`. The place that the
 * guard leaves was found with the engines that ran at that time, without the engine just started. That engine now
 * turns, but the place is outside its arc, as every place must be. Infinity when there is no place or no way. Refused
 * when closed ground is not convex.
 */
export function guardWalks(ground: GuardGround): Outcome<OrderCase["walk"]> {
  const blocks = new Map<number, Convex[]>();
  for (const { n } of ground.type.engines) {
    const ready = ground.closedBy(n).map(convex);
    if (!ready.every((block) => block !== null)) return refused(`ground closed by engine ${n} is not convex`);
    blocks.set(n, ready);
  }
  // Cached, because the search for an order asks for the same ground and places many times.
  const grounds = new Map<string, Ground>();
  const groundOf = (running: readonly number[]): Ground => {
    const key = running.join();
    const ready = grounds.get(key) ?? {
      closed: running.flatMap((n) => blocks.get(n) ?? []),
      places: new Map<number, Point | null>(),
    };
    grounds.set(key, ready);
    return ready;
  };
  const place = (engine: number, { closed, places }: Ground): Point | null => {
    const known = places.get(engine);
    if (known !== undefined) return known;
    const propeller = propellerOf(ground.type, engine);
    const polygons = closed.map((block) => block.corners);
    const station = propeller ? guardStation(propeller, polygons, ground.rule) : null;
    const where = station?.ok ? station.value : null;
    places.set(engine, where);
    return where;
  };
  return found((from, to, running) => {
    const now = groundOf(running);
    const start = from === null ? ground.waits : place(from, groundOf(running.filter((n) => n !== from)));
    const end = place(to, now);
    const walk = start && end ? walkAround(start, end, now.closed) : null;
    return walk?.ok ? walk.value.length : Number.POSITIVE_INFINITY;
  });
}
