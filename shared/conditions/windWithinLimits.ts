import { windOnNose } from "../models/weather/wind.ts";
import type { SessionState } from "../session/state.ts";
import { seenBy } from "../weather/weather.ts";
import type { ReportedCondition } from "./definition.ts";
import { freshSeconds, fromReport, NOBODY_SAID } from "./finding.ts";

/** Wind and gust as last read are within the type's limits, and read lately. */
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
    // A report's wind grows old from when it was observed, not from when it was pasted.
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

/** Wind from behind or across beyond the type's limits, in words; null where heading or direction is not known. */
function noseFault(state: SessionState, gust: number): string | null {
  const { tailMax, crossMax } = state.type.wind;
  const from = state.weather?.fromDeg ?? null;
  if (from === null || state.headingDeg === undefined) return null;
  const { head, cross } = windOnNose({ fromDeg: from, speed: gust }, state.headingDeg);
  if (tailMax && -head > tailMax.value) return `${Math.round(-head)} kt from behind`;
  return crossMax && Math.abs(cross) > crossMax.value ? `${Math.round(Math.abs(cross))} kt across` : null;
}
