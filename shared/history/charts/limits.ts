import type { CusumChart } from "../../models/statistics/cusum.ts";
import type { EwmaChart } from "../../models/statistics/ewma.ts";
import type { IndividualsChart } from "../../models/statistics/individuals.ts";
import type { StartPoint } from "./eras.ts";

/** The rules by which a chart gives a signal, in the order in which one start's are told. */
export const SIGNAL_RULES = ["beyondLimits", "jump", "average", "sum"] as const;
export type SignalRule = (typeof SIGNAL_RULES)[number];

/** One start that a rule names. */
export interface ChartSignal {
  rule: SignalRule;
  side: "high" | "low";
  point: StartPoint;
  /** The figure that is beyond its limit: the start's, the jump's, the average's or the sum's. */
  value: number;
  limit: number;
}

/** The limits of one era, worked out from its baseline alone. */
export interface ChartLimits {
  /** The starts of the baseline: the first of the era. */
  baseline: StartPoint[];
  mean: number;
  sd: number;
  individuals: Pick<IndividualsChart, "upper" | "lower" | "rangeUpper">;
  /** Of the starts after the baseline, in their order. */
  ewma: Pick<EwmaChart, "averages" | "uppers" | "lowers">;
  /** Sums in the figure's unit, of the starts after the baseline. */
  cusum: Pick<CusumChart, "high" | "low"> & { decision: number };
  /** Correlation of neighbours in the baseline, and the most that leaves the limits to be trusted. */
  neighbours: { r: number; most: number };
  /** False where neighbours depend on each other: limits are drawn and no signal is taken from them. */
  trusted: boolean;
  signals: ChartSignal[];
}
