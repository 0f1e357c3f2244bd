import { failedSinceRun } from "../engine/attempts.ts";
import type { Engine } from "../engine/life.ts";
import { type BladesDue, bladesDue } from "../models/bladeCount.ts";
import { bladeRuleAfterFailed, bladeRuleOf } from "../models/bladeRules.ts";
import type { Outcome } from "../models/outcome.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";

/**
 * Returns whether and how far an engine's blades must be turned at a moment, by its standing time, the recorded air, and
 * whether its last attempt failed.
 */
export function bladesDueAt(state: SessionState, engine: Engine, at: number): Outcome<BladesDue> {
  const rules = state.type.bladeCount;
  const rule = failedSinceRun(engine) ? bladeRuleAfterFailed(rules) : bladeRuleOf(rules).rule;
  const stood =
    engine.lastRanAt === null
      ? null
      : { value: Math.max(0, at - engine.lastRanAt) / 1000, unit: "s" as const };
  return bladesDue(rule, state.type.propeller, stood, airTemperature(state));
}

/** Returns true for a count that a later attempt used up: the type asks for another once an attempt has failed. */
export function countUsedUp({ type }: SessionState, engine: Engine): boolean {
  const { blades, starter } = engine;
  const cranked = starter.at(-1);
  if (!type.bladeCount.afterFailed || !blades || !cranked || !failedSinceRun(engine)) return false;
  return blades.by.at <= (cranked.off ?? cranked.on);
}
