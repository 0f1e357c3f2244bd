import { type Engine, isTurning } from "../engine/life.ts";
import { preheat } from "../models/oil/preheat.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";

/** `notKnown`: the type has a rule and nobody has read the temperature. */
export type PreheatNeed = "noRule" | "notKnown" | "required" | "notRequired";

/** Returns whether one engine must be heated before its start, by the recorded air and the time it has stood. */
export function preheatOf(state: SessionState, engine: Engine, now: number): PreheatNeed {
  const rule = state.type.oil.preheat;
  if (!rule) return "noRule";
  const air = airTemperature(state);
  if (!air) return "notKnown";
  const { below, soak } = rule;
  const stood =
    engine.lastRanAt === null
      ? null
      : { value: Math.max(0, now - engine.lastRanAt) / 1000, unit: "s" as const };
  const need = preheat(soak ? { below, soak } : { below }, air, stood);
  // If the figures of the rule cannot be compared, heating is required, so that no engine starts cold by mistake.
  return need.ok ? need.value : "required";
}

/** Returns true while an engine of the order that stands still must be heated. */
export function preheatRequired(state: SessionState, now: number): boolean {
  return state.engines.some(
    (e) => state.order.includes(e.n) && !isTurning(e.life) && preheatOf(state, e, now) === "required",
  );
}

/** Returns whether a check counts now: the preheat check counts only where heating is required. */
export function checkApplies(state: SessionState, check: string, now: number): boolean {
  return check !== state.type.oil.preheat?.check || preheatRequired(state, now);
}
