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

type LightningStop = Extract<LightningState, { state: "stop" }>;

/** Returns what is known of the lightning that stops work now; null when none does. */
export function lightningStop(state: SessionState, now: number): LightningStop | null {
  const seen = lightningNow(state, now);
  return seen?.state === "stop" ? seen : null;
}

/**
 * Returns the moments at which lightning begins or ends to stop work by time alone. It begins so when another server's
 * clock is ahead and a flash there is still to come by this one.
 */
export function lightningMoments(state: SessionState): number[] {
  const ends = lightningStop(state, state.at)?.resumeAt ?? [];
  return [ends, ...(state.fieldFlashes ?? []).map((f) => f.at).filter((at) => at > state.at)].flat();
}

/** Thunder is not heard after this time: it is beyond some 25 miles (from memory). */
const STILL_HEARD_MS = 120_000;

/** Returns the last flash seen by this person whose thunder may still come; null when there is none. */
export function flashAwaitingThunder(state: SessionState, person: string, now: number): SeenFlash | null {
  const own = state.flashes?.findLast((f) => f.person === person);
  return own && own.miles === null && now < own.at + STILL_HEARD_MS ? own : null;
}
