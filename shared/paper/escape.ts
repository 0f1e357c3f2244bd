import { engineStands, type Side } from "../models/facing.ts";
import type { AircraftType } from "../types/schema.ts";

/**
 * The fire guard's way out while one engine of the order starts and those before it turn. `outboard`: sideways past the
 * wing tip on the engine's own side (for a centre engine, to port). `ahead`: straight ahead of the propellers, because
 * the way outboard would lead through the arcs in `closedBy`.
 */
export interface EscapeWay {
  engine: number;
  side: Side;
  /** Engines that turn already. */
  turning: number[];
  way: "outboard" | "ahead";
  closedBy: number[];
}

type Stations = Pick<AircraftType, "engines">;

/** Returns one way out for each start of the order. None leads through the arc of an engine that turns. */
export function escapeWays(type: Stations, order: readonly number[]): EscapeWay[] {
  return order.map((engine, i) => {
    const turning = order.slice(0, i);
    const closedBy = turning.filter((n) => isOutboardOf(type, n, engine));
    const side = engineStands(engine, type.engines.length).side;
    return { engine, side, turning, way: closedBy.length > 0 ? "ahead" : "outboard", closedBy };
  });
}

/**
 * Returns true when engine `other` stands on the way from engine `n` to the wing tip (for a centre engine, to port).
 */
function isOutboardOf({ engines }: Stations, other: number, n: number): boolean {
  const y = engines.find((e) => e.n === n)?.y ?? 0;
  const there = engines.find((e) => e.n === other)?.y ?? 0;
  return y > 0 ? there > y : there < y;
}

/** Returns the way out for the person at the cart: ahead if the receptacle is ahead of every propeller, else aft. */
export function receptacleWay({ engines, plan }: Pick<AircraftType, "engines" | "plan">): "ahead" | "aft" {
  return engines.every((e) => plan.receptacle.x < e.x) ? "ahead" : "aft";
}
