import { windOnNose } from "../models/weather/wind.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy } from "../weather/weather.ts";
import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID } from "./finding.ts";

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
