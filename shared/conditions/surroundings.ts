import { windOnNose } from "../models/weather/wind.ts";
import type { SessionState } from "../session/state.ts";
import { lightningStop } from "../weather/lightning.ts";
import { seenBy } from "../weather/weather.ts";
import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID } from "./finding.ts";
import { standsOnCheck, whileStarting } from "./fromCheck.ts";

/**
 * The area was checked for loose gravel: never start with loose gravel beneath the propellers (1946 operations rule
 * 3032-1).
 */
export const areaChecked = standsOnCheck({
  id: "areaChecked",
  check: "area",
  scope: { clearance: "ifListed" },
  freshness: "area",
  mayBeSetAside: true,
  askedBefore: true,
  wanted: whileStarting,
});

/** No fuelling and no spill within the type's distance (50 ft: TM 1-1500-204-23-1). */
export const fuellingClear = standsOnCheck({
  id: "fuellingClear",
  check: "fuelling",
  scope: { clearance: "ifListed" },
  freshness: "area",
  mayBeSetAside: true,
  askedBefore: true,
  wanted: whileStarting,
});

/** Wind and gust are within the type's limits, and were read recently enough. */
export const windWithinLimits: ReportedCondition<"windWithinLimits"> = {
  id: "windWithinLimits",
  owners: ["supervisor"],
  scope: { clearance: "ifListed" },
  freshness: "weather",
  mayBeSetAside: true,
  askedBefore: true,
  find(state, _engine, now) {
    const seen = state.weather;
    if (!seen) return NOBODY_SAID;
    // The wind of a weather report ages from its observation, not from when a person pasted it.
    const { at, post, name } = seenBy(seen);
    const by = { post, name };
    const { max, gustMax } = state.type.wind;
    const gust = seen.gustKt ?? seen.windKt;
    if (seen.windKt > max.value || gust > gustMax.value) {
      return { is: "no", at, by, until: null, found: `${seen.windKt} kt, gust ${gust} kt` };
    }
    const onNose = noseFault(state, gust);
    if (onNose) return { is: "no", at, by, until: null, found: onNose };
    return fromReport(seenBy(seen), freshSeconds(state, windWithinLimits), now);
  },
};

/**
 * Returns in words a wind from behind or across beyond the type's limits; null where heading or direction is unknown.
 */
function noseFault(state: SessionState, gust: number): string | null {
  const { tailMax, crossMax } = state.type.wind;
  const from = state.weather?.fromDeg ?? null;
  if (from === null || state.headingDeg === undefined) return null;
  const { head, cross } = windOnNose({ fromDeg: from, speed: gust }, state.headingDeg);
  if (tailMax && -head > tailMax.value) return `${Math.round(-head)} kt from behind`;
  return crossMax && Math.abs(cross) > crossMax.value ? `${Math.round(Math.abs(cross))} kt across` : null;
}

/**
 * No flash within the type's distance, or of unknown distance, in the type's time. Nobody has to report that there was
 * none: the condition depends only on reported flashes. A type without a lightning rule has no limit to exceed.
 */
export const lightningClear: ReportedCondition<"lightningClear"> = {
  id: "lightningClear",
  owners: ["supervisor"],
  scope: { clearance: "always" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, _engine, now) {
    const seen = lightningStop(state, now);
    if (!seen) return { is: "yes", at: null, by: null, until: null };
    const found = seen.nearestMiles === null ? "distance unknown" : `${seen.nearestMiles} mi`;
    return { is: "no", at: seen.lastAt, by: null, until: seen.resumeAt, found };
  },
};
