import { z } from "zod";
import type { DefectLife } from "../../defects/lives.ts";
import { found } from "../../models/outcome.ts";
import { growthInterval, laplaceTrend } from "../../models/statistics/powerLaw.ts";

/** Defects from which a trend is worked out: our own choice, no source. */
export const LEAST_DEFECTS = 5;
const DAY_MS = 86_400_000;
const POINTS = 40;

const number = z.number();
export const defectTrendSchema = z.object({
  aircraft: z.string(),
  /** The first start on record, and now. Null: no start is on record, so that nothing was watched. */
  from: number.nullable(),
  to: number,
  defects: z.array(z.object({ no: number, at: number, words: z.string(), engine: number.nullable() })),
  least: number,
  /** Null with too few defects. */
  trend: z
    .object({
      /** The exponent b of M(t) = a t^b with its interval of 95 %. */
      exponent: z.object({ value: number, low: number, high: number }),
      /** Laplace's score, standard normal when there is no trend. */
      laplace: number,
      /** On one side of 1 with the whole interval: defects become rarer, or more frequent. */
      is: z.enum(["rarer", "moreFrequent", "none"]),
      /** Days between two defects now, by the fit. */
      daysBetween: number,
      curve: z.array(z.object({ at: number, count: number })),
    })
    .nullable(),
});
export type DefectTrend = z.infer<typeof defectTrendSchema>;

/**
 * Returns whether an aircraft's defects become rarer, by the power law of a repaired system watched from its first start
 * on record to now. Defects of the first moment and before cannot be part of the law and are left out.
 */
export function defectTrend(
  aircraft: string,
  lives: readonly DefectLife[],
  from: number | null,
  to: number,
): DefectTrend {
  const defects = lives
    .filter((l) => from !== null && l.written.at > from && l.written.at <= to)
    .map(({ no, words, engine, written: { at } }) => ({ no, at, words, engine }))
    .sort((a, b) => a.at - b.at || a.no - b.no);
  const base = { aircraft, from, to, defects, least: LEAST_DEFECTS };
  if (from === null || defects.length < LEAST_DEFECTS) return { ...base, trend: null };
  const days = defects.map(({ at }) => (at - from) / DAY_MS);
  const watched = (to - from) / DAY_MS;
  const exponent = growthInterval(days, watched);
  const laplace = exponent.ok ? laplaceTrend(days, watched) : found(0);
  if (!exponent.ok || !laplace.ok) return { ...base, trend: null };
  const { value, low, high } = exponent.value;
  const curve = Array.from({ length: POINTS + 1 }, (_, i) => ({
    at: from + ((to - from) * i) / POINTS,
    count: days.length * (i / POINTS) ** value,
  }));
  return {
    ...base,
    trend: {
      exponent: exponent.value,
      laplace: laplace.value,
      is: high < 1 ? "rarer" : low > 1 ? "moreFrequent" : "none",
      daysBetween: watched / (days.length * value),
      curve,
    },
  };
}
