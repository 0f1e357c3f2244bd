import type { Quantity } from "../protocol/quantity.ts";
import type { Limit } from "../types/limit.ts";
import type { PrimeRules } from "../types/prime.ts";
import { found, type Outcome, refused } from "./outcome.ts";
import { bandFor, bandsBelow } from "./temperatureBand.ts";
import { convert } from "./units.ts";

/**
 * Returns the type's prime for an engine. A hot engine, one that ran not longer ago than the type says, takes the hot
 * amount; otherwise the band of the temperature decides. `sinceRanMs` is null when nobody knows: it counts as long.
 * Refused without a temperature: too little and too much are both wrong, so neither is the careful guess.
 */
export function primeFor(
  rules: PrimeRules,
  temperature: Quantity | null,
  sinceRanMs: number | null,
): Outcome<{ amount: Limit; hot: boolean }> {
  if (sinceRanMs !== null && !(Number.isFinite(sinceRanMs) && sinceRanMs >= 0))
    return refused("the time since it ran must be 0 or more");
  if (rules.hot && sinceRanMs !== null) {
    const within = convert(rules.hot.within, "s");
    if (!within.ok) return within;
    if (sinceRanMs <= within.value.value * 1000) return found({ amount: rules.hot.amount, hot: true });
  }
  if (temperature === null) return refused("the temperature has not been read");
  const band = bandFor(bandsBelow<PrimeRules, { amount: Limit }>(rules), temperature);
  return band.ok ? found({ amount: band.value.amount, hot: false }) : band;
}
