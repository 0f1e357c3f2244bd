import { found, type Outcome, outside, refused } from "./outcome.ts";

/**
 * First-order model of a starter's heat. It is an addition to the published ladder and never replaces it. Heat is
 * relative: any one unit above ambient (kelvins, or parts of the steady rise). Times are in seconds.
 *
 * On: θ' = (θ∞ − θ)/τon. Off: θ' = −θ/τoff.
 */
export interface StarterHeat {
  /** Heat at which the starter would settle if engaged for ever. */
  steady: number;
  tauOn: number;
  tauOff: number;
}

const badHeat = ({ steady, tauOn, tauOff }: StarterHeat): string | null =>
  outside("steady heat", steady, 0, 10_000) ??
  outside("time constant engaged", tauOn, 0.1, 1e6, "s") ??
  outside("time constant at rest", tauOff, 0.1, 1e6, "s");

const badTime = (seconds: number): string | null => outside("time", seconds, 0, 1e7, "s");
const badStart = (heat: number): string | null => outside("heat", heat, 0, 10_000);

/** Returns the heat after `seconds` engaged: θ(t) = θ∞ − (θ∞ − θ0)·e^(−t/τon). */
export function heatEngaged(model: StarterHeat, start: number, seconds: number): Outcome<number> {
  const why = badHeat(model) ?? badStart(start) ?? badTime(seconds);
  return why ? refused(why) : found(model.steady - (model.steady - start) * Math.exp(-seconds / model.tauOn));
}

/** Returns the heat after `seconds` at rest: θ(t) = θ0·e^(−t/τoff). */
export function heatAtRest(model: StarterHeat, start: number, seconds: number): Outcome<number> {
  const why = badHeat(model) ?? badStart(start) ?? badTime(seconds);
  return why ? refused(why) : found(start * Math.exp(-seconds / model.tauOff));
}

/** Returns the seconds of rest until the heat is down to `limit`: t = τoff·ln(θ/θlimit); 0 when it is there already. */
export function coolDownLeft(model: StarterHeat, heat: number, limit: number): Outcome<number> {
  const why = badHeat(model) ?? badStart(heat) ?? outside("heat limit", limit, 1e-6, 10_000);
  return why ? refused(why) : found(heat <= limit ? 0 : model.tauOff * Math.log(heat / limit));
}

/** One engagement, seconds on any one clock; `off` is null while it still runs. */
export interface Engagement {
  on: number;
  off: number | null;
}

/**
 * Returns the heat at `now` of a starter that was cold before its first engagement. Engagements must be in order of
 * time.
 */
export function heatAfter(model: StarterHeat, uses: readonly Engagement[], now: number): Outcome<number> {
  let heat = 0;
  let since = uses[0]?.on ?? now;
  for (const use of uses) {
    const off = use.off ?? now;
    if (use.on < since || off < use.on || off > now)
      return refused("engagements follow one another up to now");
    const rested = heatAtRest(model, heat, use.on - since);
    if (!rested.ok) return rested;
    const engaged = heatEngaged(model, rested.value, off - use.on);
    if (!engaged.ok) return engaged;
    heat = engaged.value;
    since = off;
  }
  return heatAtRest(model, heat, now - since);
}

/**
 * Returns the highest heat of an endless cycle of `on` and `off` seconds, as a part of the steady heat: P = (1 −
 * e^(−a)) / (1 − e^(−(a+b))), a = on/τon, b = off/τoff. For equal τ that are long against the cycle it approaches the
 * duty factor.
 */
export function peakPart(model: StarterHeat, on: number, off: number): Outcome<number> {
  const why = badHeat(model) ?? outside("time engaged", on, 1e-3, 1e6, "s") ?? badTime(off);
  if (why) return refused(why);
  const a = on / model.tauOn;
  return found(Math.expm1(-a) / Math.expm1(-(a + off / model.tauOff)));
}

/** Returns the ratio of the heat of two currents in the same winding: (I/I0)². */
export function heatRatio(amps: number, thanAmps: number): Outcome<number> {
  const why = outside("current", amps, 0, 5000, "A") ?? outside("current", thanAmps, 1, 5000, "A");
  return why ? refused(why) : found((amps / thanAmps) ** 2);
}
