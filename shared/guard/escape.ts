import { engineStands, type Side } from "../models/facing.ts";
import type { AircraftType } from "../types/schema.ts";

/**
 * The fire guard's way out from one engine while others turn. `outboard`: sideways past the wing tip on the engine's
 * own side (for a centre engine, to port). `ahead`: straight ahead of the propellers, because the way outboard would
 * lead through the arcs in `closedBy`.
 */
export interface EscapeWay {
  engine: number;
  side: Side;
  /** The other engines that turn. */
  turning: number[];
  way: "outboard" | "ahead";
  closedBy: number[];
}

type Stations = Pick<AircraftType, "engines">;

/** Returns the way out from an engine. It never leads through the arc of another engine that turns. */
export function escapeWay(type: Stations, engine: number, turning: readonly number[]): EscapeWay {
  const others = turning.filter((n) => n !== engine);
  const closedBy = others.filter((n) => isOutboardOf(type, n, engine));
  const side = engineStands(engine, type.engines.length).side;
  return { engine, side, turning: others, way: closedBy.length > 0 ? "ahead" : "outboard", closedBy };
}

/**
 * Returns true when engine `other` stands on the way from engine `n` to the wing tip (for a centre engine, to port).
 */
function isOutboardOf({ engines }: Stations, other: number, n: number): boolean {
  const y = engines.find((e) => e.n === n)?.y ?? 0;
  const there = engines.find((e) => e.n === other)?.y ?? 0;
  return y > 0 ? there > y : there < y;
}
