import { z } from "zod";
import { kaplanMeier } from "../../models/statistics/kaplanMeier.ts";
import { fitWeibull } from "../../models/statistics/weibull.ts";
import {
  type WeibullSpread,
  weibullIntervals,
  weibullSpread,
  weibullSurvival,
} from "../../models/statistics/weibullInterval.ts";
import { LIVES_OF, type Life, type LivesOf } from "./lives.ts";

/** Failures from which a law is fitted and its interval drawn: our own choice, no source. */
export const LEAST_FAILURES = 5;
/** Points of a drawn curve. */
const POINTS = 40;

const number = z.number();
const interval = z.object({ value: number, low: number, high: number });
export const survivalSchema = z.object({
  of: z.enum(LIVES_OF),
  lives: z.array(z.object({ id: z.string(), starts: number, failed: z.boolean(), last: number })),
  failures: number,
  least: number,
  /** Kaplan and Meier: the share still in use just after so many starts. */
  steps: z.array(z.object({ starts: number, atRisk: number, failures: number, survival: number })),
  /** Null where too few failed, or where their lives determine no law. */
  weibull: z
    .object({
      scale: interval,
      shape: interval,
      curve: z.array(z.object({ starts: number, ...interval.shape })),
    })
    .nullable(),
});
export type Survival = z.infer<typeof survivalSchema>;

/** Returns how long things of one kind stay in use, counted in starts. The interval is of 95 %. */
export function survivalOf(of: LivesOf, lives: readonly Life[]): Survival {
  const lifetimes = lives.map(({ starts, failed }) => ({ time: starts, failed }));
  const failures = lives.filter((l) => l.failed).length;
  const fit = failures >= LEAST_FAILURES ? fitWeibull(lifetimes) : null;
  const longest = Math.max(1, ...lives.map((l) => l.starts));
  return {
    of,
    lives: [...lives].sort((a, b) => b.starts - a.starts || (a.id < b.id ? -1 : 1)),
    failures,
    least: LEAST_FAILURES,
    steps: kaplanMeier(lifetimes).map(({ time, atRisk, failures: f, survival }) => ({
      ...{ starts: time, atRisk, failures: f, survival },
    })),
    weibull: fit?.ok ? drawn(weibullSpread(lifetimes, fit.value), longest) : null,
  };
}

function drawn(spread: WeibullSpread, longest: number): NonNullable<Survival["weibull"]> {
  const curve = Array.from({ length: POINTS }, (_, i) => {
    const starts = (longest * (i + 1)) / POINTS;
    return { starts, ...weibullSurvival(starts, spread) };
  });
  return { ...weibullIntervals(spread), curve };
}
