import { type EscapeWay, escapeWay } from "../guard/escape.ts";
import type { AircraftType } from "../types/schema.ts";

/** Returns the guard's way out for each start of the order, while the engines before it turn. */
export function escapeWays(type: Pick<AircraftType, "engines">, order: readonly number[]): EscapeWay[] {
  return order.map((engine, i) => escapeWay(type, engine, order.slice(0, i)));
}

/** Returns the guard's way out at each stop of the order, while the engines after it still turn. */
export function escapeWaysBack(type: Pick<AircraftType, "engines">, order: readonly number[]): EscapeWay[] {
  return order.map((engine, i) => escapeWay(type, engine, order.slice(i + 1)));
}

/** Returns the way out for the person at the cart: ahead if the receptacle is ahead of every propeller, else aft. */
export function receptacleWay({ engines, plan }: Pick<AircraftType, "engines" | "plan">): "ahead" | "aft" {
  return engines.every((e) => plan.receptacle.x < e.x) ? "ahead" : "aft";
}
