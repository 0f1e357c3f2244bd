import { found, type Outcome, outside, refused } from "../outcome.ts";
import { leastSquares, type Residual } from "./leastSquares.ts";

/** A temperature and the moment of its reading. All readings of one series have one unit. */
export interface WarmUpReading {
  seconds: number;
  temperature: number;
}

/**
 * A fitted warm-up, T(t) = steady − rise·e^(−rate·(t − origin)); rate per second, τ = 1/rate. The standard errors come
 * only from the scatter of the readings: they do not cover a change of power midway.
 */
export interface WarmUpFit {
  steady: number;
  rise: number;
  rate: number;
  origin: number;
  /** Sum of squared residuals, and the standard deviation that follows from it. */
  rss: number;
  deviation: number;
  /** Of (steady, rise, rate), in that order. */
  covariance: number[][];
  /** Steady temperature that the data still allow if the rate is three standard errors faster. */
  lowestSteady: number;
  /** Seconds of the last reading, and mean seconds between readings. */
  last: number;
  interval: number;
}

/** Rates to try as a start, as parts of the readings' span, evenly spaced by ratio. */
const RATES = Array.from({ length: 40 }, (_, i) => 0.01 * 10_000 ** (i / 39));

/**
 * Fits a warm-up by least squares: the best of 40 rates, each with its exact straight-line fit, then Gauss–Newton with
 * damping. If `from` is given, the temperature at that moment is taken as known and only two parameters are fitted.
 *
 * Returns null when the data do not determine it: fewer than two readings to spare, no settled best fit, no rise.
 * Refuses readings that are not in order of time, more than 100 000 of them, and temperatures outside −460 to 2000.
 */
export function fitWarmUp(
  readings: readonly WarmUpReading[],
  from?: WarmUpReading,
): Outcome<WarmUpFit | null> {
  const why = badSeries(readings, from);
  if (why) return refused(why);
  const first = readings[0];
  const last = readings.at(-1);
  if (!first || !last || readings.length < (from ? 4 : 5)) return found(null);
  const origin = from?.seconds ?? first.seconds;
  const span = last.seconds - origin;
  const times = readings.map((r) => (r.seconds - origin) / span);
  const temperatures = readings.map((r) => r.temperature);
  const known = from ? from.temperature : null;

  let best = linearFit(times, temperatures, known, RATES[0] as number);
  for (const rate of RATES) {
    const tried = linearFit(times, temperatures, known, rate);
    if (tried && (!best || tried.rss < best.rss)) best = tried;
  }
  if (!best) return found(null);
  const { steady, rise, rate } = best;
  const start = known === null ? [steady, rise, rate] : [rise, rate];
  const solved = leastSquares(residualOf(times, temperatures, known), readings.length, start);
  if (!solved) return found(null);
  const [k = 0, d = 0] = [...solved.parameters].reverse();
  if (!(k > 0 && d > 0)) return found(null);

  const variance = solved.rss / (readings.length - start.length);
  const covariance = covarianceOf(solved.inverse, variance, span);
  const fast = linearFit(times, temperatures, known, k + 3 * Math.sqrt(covariance[2]?.[2] ?? 0) * span);
  return found({
    steady: known === null ? (solved.parameters[0] as number) : known + d,
    rise: d,
    rate: k / span,
    origin,
    rss: solved.rss,
    deviation: Math.sqrt(variance),
    covariance,
    lowestSteady: fast ? fast.steady : Number.NEGATIVE_INFINITY,
    last: last.seconds,
    interval: (last.seconds - first.seconds) / (readings.length - 1),
  });
}

function badSeries(readings: readonly WarmUpReading[], from?: WarmUpReading): string | null {
  const size = outside("number of readings", readings.length, 0, 100_000);
  if (size) return size;
  let before = from?.seconds ?? Number.NEGATIVE_INFINITY;
  for (const { seconds, temperature } of from ? [from, ...readings] : readings) {
    const why = outside("time", seconds, -1e9, 1e9, "s") ?? outside("temperature", temperature, -460, 2000);
    if (why) return why;
    if (seconds < before) return `a reading at ${seconds} s is out of order`;
    before = seconds;
  }
  const begun = from?.seconds ?? readings[0]?.seconds ?? 0;
  return readings.length > 1 && before === begun ? "all readings are of one moment" : null;
}

/**
 * Returns the best steady temperature and rise for one rate (straight-line least squares on e^(−rate·t)); null if
 * undetermined.
 */
function linearFit(
  times: readonly number[],
  temperatures: readonly number[],
  known: number | null,
  rate: number,
) {
  const n = times.length;
  let [sE, sEE, sT, sET] = [0, 0, 0, 0];
  const shift = known ?? temperatures[0] ?? 0;
  for (let i = 0; i < n; i += 1) {
    // With a known start the basis is 1 − e, and there is no constant to fit.
    const e =
      known === null ? Math.exp(-rate * (times[i] as number)) : -Math.expm1(-rate * (times[i] as number));
    const t = (temperatures[i] as number) - shift;
    sE += e;
    sEE += e * e;
    sT += t;
    sET += e * t;
  }
  const spread = known === null ? sEE - (sE * sE) / n : sEE;
  if (!(spread > 1e-12 * sEE)) return null;
  const slope = (known === null ? sET - (sE * sT) / n : sET) / spread;
  const rise = known === null ? -slope : slope;
  const steady = known === null ? shift + (sT - slope * sE) / n : known + rise;
  let rss = 0;
  for (let i = 0; i < n; i += 1) {
    rss += (steady - rise * Math.exp(-rate * (times[i] as number)) - (temperatures[i] as number)) ** 2;
  }
  return { steady, rise, rate, rss };
}

function residualOf(
  times: readonly number[],
  temperatures: readonly number[],
  known: number | null,
): Residual {
  return (parameters, i, slopes) => {
    const t = times[i] as number;
    const [s, d, k] = (known === null ? parameters : [known, ...parameters]) as [number, number, number];
    const e = Math.exp(-k * t);
    if (known === null) {
      slopes[0] = 1;
      slopes[1] = -e;
      slopes[2] = d * t * e;
      return s - d * e - (temperatures[i] as number);
    }
    slopes[0] = 1 - e;
    slopes[1] = d * t * e;
    return s + d * (1 - e) - (temperatures[i] as number);
  };
}

/**
 * Returns the covariance of (steady, rise, rate), with the rate per second. With a known start, steady and rise change
 * together.
 */
function covarianceOf(inverse: readonly (readonly number[])[], variance: number, span: number): number[][] {
  const of = inverse.length === 3 ? [0, 1, 2] : [0, 0, 1];
  const unit = [1, 1, 1 / span];
  return of.map((r, i) =>
    of.map((c, j) => (inverse[r]?.[c] ?? 0) * variance * (unit[i] as number) * (unit[j] as number)),
  );
}
