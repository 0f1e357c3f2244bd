import { autocorrelation } from "../../models/statistics/autocorrelation.ts";
import { cusumChart } from "../../models/statistics/cusum.ts";
import { ewmaChart } from "../../models/statistics/ewma.ts";
import { individualsChart } from "../../models/statistics/individuals.ts";
import type { Unit } from "../../protocol/quantity.ts";
import { definitionOf, type HistoryFigure } from "../figures.ts";
import type { StartRow } from "../row.ts";
import { type Era, erasOf, type StartPoint } from "./eras.ts";
import type { ChartLimits } from "./limits.ts";
import { BASELINE, CUSUM, cusumSlack, EWMA, ewmaWidth, mostAutocorrelation } from "./rules.ts";
import { signalsOf } from "./signals.ts";

/** Why a chart has no limits. */
export type NoLimits = "notJudged" | "tooFew" | "noSpread";

/** The charts of one figure of one engine. */
export interface FigureChart {
  figure: HistoryFigure;
  unit: Unit;
  /** Earlier series, which are drawn and judge nothing. */
  earlier: Era[];
  era: Era;
  limits: ChartLimits | null;
  /** Null where there are limits. */
  why: NoLimits | null;
  /** Starts that are still missing for limits; 0 where there are enough. */
  missing: number;
}

/** Returns the charts of a figure from an engine's rows; null when nobody ever read it. */
export function figureChart(rows: readonly StartRow[], figure: HistoryFigure): FigureChart | null {
  const series = erasOf(rows, figure);
  const era = series?.eras.at(-1);
  if (!series || !era) return null;
  const missing = Math.max(0, BASELINE - era.points.length);
  const base = { figure, unit: series.unit, earlier: series.eras.slice(0, -1), era, missing };
  if (!definitionOf(figure).judged) return { ...base, missing: 0, limits: null, why: "notJudged" };
  if (missing > 0) return { ...base, limits: null, why: "tooFew" };
  const limits = chartLimits(era.points);
  return limits ? { ...base, limits, why: null } : { ...base, limits: null, why: "noSpread" };
}

/**
 * Returns limits and signals of the starts of one era, oldest first, of which the first are the baseline. Null where
 * the baseline's figures are all the same: such limits would make a signal of every change.
 */
export function chartLimits(points: readonly StartPoint[]): ChartLimits | null {
  const baseline = points.slice(0, BASELINE);
  const values = points.map((p) => p.value);
  const first = values.slice(0, BASELINE);
  const later = values.slice(BASELINE);
  const individuals = individualsChart(first);
  const r = autocorrelation(first);
  if (!individuals.ok || !r.ok) return null;
  const { mean, upper, lower, rangeUpper } = individuals.value;
  const sd = (upper - mean) / 3;
  const ewma = ewmaChart(later, { target: mean, sd, lambda: EWMA.lambda, width: ewmaWidth(BASELINE) });
  const decision = CUSUM.decision * sd;
  const cusum = cusumChart(later, { target: mean, slack: cusumSlack(BASELINE) * sd, decision });
  if (!ewma.ok || !cusum.ok) return null;
  const neighbours = { r: r.value, most: mostAutocorrelation(BASELINE) };
  const trusted = Math.abs(neighbours.r) <= neighbours.most;
  const { averages, uppers, lowers } = ewma.value;
  const { high, low } = cusum.value;
  const limits = {
    baseline,
    mean,
    sd,
    individuals: { upper, lower, rangeUpper },
    ewma: { averages, uppers, lowers },
    cusum: { high, low, decision },
    neighbours,
    trusted,
  };
  return { ...limits, signals: trusted ? signalsOf(points, limits) : [] };
}
