import type { Engine } from "../engine/life.ts";
import { type BladesDue, bladesDue } from "../models/bladeCount.ts";
import { bladeRuleOf } from "../models/bladeRules.ts";
import type { Outcome } from "../models/outcome.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";

/**
 * Returns whether and how far an engine's blades must be turned at a moment, by its standing time and the recorded air.
 */
export function bladesDueAt(state: SessionState, engine: Engine, at: number): Outcome<BladesDue> {
  const { rule } = bladeRuleOf(state.type.bladeCount);
  const stood =
    engine.lastRanAt === null
      ? null
      : { value: Math.max(0, at - engine.lastRanAt) / 1000, unit: "s" as const };
  return bladesDue(rule, state.type.propeller, stood, airTemperature(state));
}
