import { worstWind } from "../models/weather/wind.ts";
import type { SessionState } from "../session/state.ts";
import { lightningStop } from "../weather/lightning.ts";
import { seenBy } from "../weather/weather.ts";
import type { Finding, ReportedCondition } from "./definition.ts";
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
    const onNose = onNoseFinding(state, gust);
    if (onNose) return { ...onNose, at, by, until: null };
    return fromReport(seenBy(seen), freshSeconds(state, windWithinLimits), now);
  },
};

/**
 * Returns a wind from behind or across that is, or may be, beyond the type's limits; null when it cannot be. A
 * direction that swings or that nobody gave counts as the worst one. Without a heading such a wind is unknown.
 */
function onNoseFinding(state: SessionState, gust: number): Pick<Finding, "is" | "found"> | null {
  const { tailMax, crossMax } = state.type.wind;
  const seen = state.weather;
  if (!seen || gust === 0) return null;
  const heading = state.headingDeg ?? null;
  const from = { fromDeg: seen.fromDeg, swing: seen.swing ?? null };
  const { tail, cross } = worstWind(gust, from, heading);
  const behind = tailMax !== undefined && tail > tailMax.value;
  const across = crossMax !== undefined && cross > crossMax.value;
  if (!behind && !across) return null;
  if (heading === null) return { is: "unknown", found: `heading not planned, ${gust} kt` };
  const beyond = behind ? `${Math.round(tail)} kt from behind` : `${Math.round(cross)} kt across`;
  const unseen = from.fromDeg === null && from.swing === null;
  const counted = unseen ? ", direction unknown" : from.swing ? ", as it swings" : "";
  return { is: "no", found: `${beyond}${counted}` };
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
