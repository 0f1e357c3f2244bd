import type { StarterUse } from "../engine/life.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { StarterRules } from "../types/starter.ts";
import { bandsBelow, chosenBands } from "./temperatureBand.ts";

type Duty = Pick<StarterRules, "ladder" | "resetAfter">;

/** State of a starter on its duty ladder. Times are milliseconds. */
export interface StarterDuty {
  /** Zero-based step the next engagement uses. */
  step: number;
  /** Longest permitted next engagement. */
  onMax: number;
  /** Earliest moment of the next engagement; 0 before the first one. */
  permittedAt: number;
}

/**
 * Returns the duty by the ladder (form: 40 s on, 60 s off, 40 on, 60 off, 40 on, 30 min off; TM 55-1510-215-10). Any
 * engagement counts as a step, however short. A rest of `resetAfter` begins a new series. While an engagement still
 * runs there is no rest, so `permittedAt` is Infinity.
 */
export function starterDuty(
  starter: Duty,
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

/** Duty by the band of the air's temperature. */
export interface BandedDuty extends StarterDuty {
  /** True when the temperature is unknown and the most restrictive of several bands was used. */
  assumed: boolean;
}

/**
 * Returns `starterDuty` on the ladder that applies at a temperature. If that is unknown (null, or in no unit of
 * temperature), the shortest engagement and the longest rest of all bands apply together.
 */
export function starterDutyAt(
  starter: StarterRules,
  uses: readonly Pick<StarterUse, "on" | "off">[],
  now: number,
  temperature: Quantity | null,
): BandedDuty {
  const { bands, assumed } = chosenBands(bandsBelow<StarterRules, Duty>(starter), temperature);
  const duties = bands.map((band) => starterDuty(band, uses, now));
  const onMax = Math.min(...duties.map((d) => d.onMax));
  const permittedAt = Math.max(...duties.map((d) => d.permittedAt));
  const step = duties.find((d) => d.permittedAt === permittedAt)?.step ?? 0;
  return { step, onMax, permittedAt, assumed };
}
