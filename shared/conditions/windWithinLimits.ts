import type { Condition } from "./condition.ts";
import { NOBODY_SAID } from "./said.ts";

/** Wind and gust as last read are within the type's limits, and read lately. */
export const windWithinLimits: Condition = {
  id: "windWithinLimits",
  owners: ["supervisor"],
  find(state, _engine, now) {
    const seen = state.weather;
    if (!seen) return NOBODY_SAID;
    const by = { post: seen.by.post, name: seen.by.name };
    const { max, gustMax } = state.type.wind;
    const gust = seen.gustKt ?? seen.windKt;
    if (seen.windKt > max.value || gust > gustMax.value) {
      return { is: "no", at: seen.by.at, by, until: null, found: `${seen.windKt} kt, gust ${gust} kt` };
    }
    const until = seen.by.at + state.type.timing.weather.value * 1000;
    return { is: now >= until ? "stale" : "yes", at: seen.by.at, by, until };
  },
};
