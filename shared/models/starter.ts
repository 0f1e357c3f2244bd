import type { StarterUse } from "../session/state.ts";
import type { AircraftType } from "../types/schema.ts";

/** Where a starter stands on its ladder. Times are milliseconds. */
export interface StarterDuty {
  /** Zero-based step the next engagement uses. */
  step: number;
  /** Longest permitted next engagement. */
  onMax: number;
  /** Moment from which the next engagement is permitted; 0 when it always was. */
  permittedAt: number;
}

/**
 * Rule-based duty ladder (form: 40 s on, 60 s off, 40 on, 60 off, 40 on, 30 min off; TM 55-1510-215-10).
 * Any engagement counts as a step, however short. A rest of `resetAfter` begins a new series. An engagement still
 * running has no rest yet: `permittedAt` is then Infinity.
 */
export function starterDuty(
  starter: AircraftType["starter"],
  uses: readonly Pick<StarterUse, "on" | "off">[],
  now: number,
): StarterDuty {
  const ladder = starter.ladder;
  const reset = starter.resetAfter.value * 1000;
  let step = 0;
  let permittedAt = 0;
  let previousOff = Number.NEGATIVE_INFINITY;
  for (const use of uses) {
    if (use.on - previousOff >= reset) step = 0;
    const rung = ladder[Math.min(step, ladder.length - 1)];
    if (!rung) throw new Error("a starter ladder has at least one step");
    permittedAt = use.off === null ? Number.POSITIVE_INFINITY : use.off + rung.rest.value * 1000;
    previousOff = use.off ?? Number.POSITIVE_INFINITY;
    step += 1;
  }
  if (now - previousOff >= reset) step = 0;
  const next = ladder[Math.min(step, ladder.length - 1)];
  if (!next) throw new Error("a starter ladder has at least one step");
  return { step: Math.min(step, ladder.length - 1), onMax: next.onMax.value * 1000, permittedAt };
}
