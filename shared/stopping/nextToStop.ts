import { type Engine, isTurning } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the engine that is stopped next in a return: the first of the order that turns, then any other that does. */
export function nextToStop({ returning, order, engines }: SessionState): Engine | null {
  if (!returning) return null;
  const turning = engines.filter((e) => isTurning(e.life));
  const planned = order.find((n) => turning.some((e) => e.n === n));
  return turning.find((e) => e.n === planned) ?? turning[0] ?? null;
}
