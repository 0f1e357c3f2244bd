import { type LightningState, lightningState } from "../models/weather/lightning.ts";
import type { SessionState } from "../session/state.ts";
import type { SeenFlash } from "./weather.ts";

/** Returns the state of the type's lightning rule; null where the type has none. */
export function lightningNow(state: SessionState, now: number): LightningState | null {
  const rule = state.type.ramp?.lightning;
  if (!rule) return null;
  const flashes = [...(state.flashes ?? []), ...(state.fieldFlashes ?? [])].sort((a, b) => a.at - b.at);
  return lightningState(flashes, now, {
    stopWithinMiles: rule.stopWithin.value,
    resumeAfter: rule.resumeAfter.value * 1000,
  });
}

/** Thunder is not heard after this time: it is beyond some 25 miles (from memory). */
const STILL_HEARD_MS = 120_000;

/** Returns the last flash seen by this person whose thunder may still come; null when there is none. */
export function flashAwaitingThunder(state: SessionState, person: string, now: number): SeenFlash | null {
  const own = state.flashes?.findLast((f) => f.person === person);
  return own && own.miles === null && now < own.at + STILL_HEARD_MS ? own : null;
}
