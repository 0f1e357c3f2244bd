import { found, type Outcome, refused } from "../outcome.ts";
import { badPair, type Pair } from "./point.ts";

/** A least-squares line y = intercept + slope x with its analysis of variance. */
export interface Line {
  slope: number;
  intercept: number;
  slopeSe: number;
  interceptSe: number;
  /** Residual standard deviation, n - 2 degrees of freedom. */
  residualSd: number;
  /** Share of variation explained; null where y does not vary. */
  r2: number | null;
  regressionSs: number;
  residualSs: number;
  /** Regression mean square over residual mean square; Infinity for an exact fit. */
  f: number;
}

/**
 * Fits a line by least squares with centred sums: slope = Sxy / Sxx, standard errors from the residual variance with n
 * - 2 degrees of freedom (NIST e-Handbook 4.1.4; certified sets: NIST StRD). Needs three pairs and two different x.
 */
export function regressionLine(pairs: readonly Pair[]): Outcome<Line> {
  const n = pairs.length;
  if (n < 3) return refused("a line with its errors needs three pairs");
  const why = badPair(pairs);
  if (why) return refused(why);
  const meanX = pairs.reduce((sum, p) => sum + p.x, 0) / n;
  const meanY = pairs.reduce((sum, p) => sum + p.y, 0) / n;
  const sxx = pairs.reduce((sum, p) => sum + (p.x - meanX) ** 2, 0);
  if (!(sxx > 0)) return refused("all x are the same");
  const sxy = pairs.reduce((sum, p) => sum + (p.x - meanX) * (p.y - meanY), 0);
  const syy = pairs.reduce((sum, p) => sum + (p.y - meanY) ** 2, 0);
  const slope = sxy / sxx;
  const intercept = meanY - slope * meanX;
  const residualSs = pairs.reduce((sum, p) => sum + (p.y - meanY - slope * (p.x - meanX)) ** 2, 0);
  const regressionSs = slope * sxy;
  const meanSquare = residualSs / (n - 2);
  return found({
    slope,
    intercept,
    slopeSe: Math.sqrt(meanSquare / sxx),
    interceptSe: Math.sqrt(meanSquare * (1 / n + meanX ** 2 / sxx)),
    residualSd: Math.sqrt(meanSquare),
    r2: syy > 0 ? 1 - residualSs / syy : null,
    regressionSs,
    residualSs,
    f: regressionSs / meanSquare,
  });
}
