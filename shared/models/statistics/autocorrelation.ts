import { found, notFinite, type Outcome, refused } from "../outcome.ts";
import { moments } from "./moments.ts";

/**
 * Returns the autocorrelation at a lag: r = sum (x[i] - m)(x[i + lag] - m) / sum (x[i] - m)^2 (NIST e-Handbook
 * 1.3.5.12). Needs more values than the lag, and values that are not all equal.
 */
export function autocorrelation(values: readonly number[], lag = 1): Outcome<number> {
  if (!(Number.isInteger(lag) && lag >= 0 && lag < values.length))
    return refused("lag must be below the count");
  const why = notFinite("value", values);
  if (why) return refused(why);
  const mean = moments(values)?.mean ?? 0;
  const apart = values.map((x) => x - mean);
  const all = apart.reduce((sum, d) => sum + d * d, 0);
  if (all === 0) return refused("values do not vary");
  const lagged = apart.slice(lag).reduce((sum, d, i) => sum + d * (apart[i] ?? 0), 0);
  return found(lagged / all);
}
