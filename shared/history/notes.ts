import type { Unit } from "../protocol/quantity.ts";
import { type FigureChart, figureChart } from "./charts/chart.ts";
import type { ChartSignal, SignalRule } from "./charts/limits.ts";
import { changedSince } from "./charts/signals.ts";
import { definitionOf, HISTORY_FIGURE_IDS, type HistoryFigure } from "./figures.ts";
import type { StartRow } from "./row.ts";

/** A signal at an engine's last start, for the people who start it next. It is no alert, and bars nothing. */
export interface HistoryNote {
  aircraft: string;
  n: number;
  serial: string;
  figure: HistoryFigure;
  side: "high" | "low";
  unit: Unit;
  baseline: { count: number; from: number; to: number };
  /** What is beyond its limit: the last start itself, or the average of the starts since a change. */
  found:
    | { is: "start"; value: number; limit: number }
    | { is: "average"; value: number; usual: number; since: number };
  /** The last start. */
  at: number;
  session: string;
}

/** The rules that make a note, the strongest first. A jump alone may be one odd reading, and makes none. */
const NOTED: readonly SignalRule[] = ["average", "sum", "beyondLimits"];

/**
 * Returns the notes of one engine, from all its rows: one for each figure whose last start gives a signal on the side
 * on which it becomes worse.
 */
export function notesOf(rows: readonly StartRow[]): HistoryNote[] {
  const last = rows.reduce<StartRow | null>((a, b) => (a && a.at > b.at ? a : b), null);
  if (!last || last.serial === null) return [];
  const { aircraft, n, serial } = last;
  return HISTORY_FIGURE_IDS.flatMap((figure): HistoryNote[] => {
    const chart = figureChart(rows, figure);
    const said = chart && noted(chart);
    return said ? [{ aircraft, n, serial, figure, ...said }] : [];
  });
}

function noted({
  figure,
  unit,
  era,
  limits,
}: FigureChart): Omit<HistoryNote, "aircraft" | "n" | "serial" | "figure"> | null {
  const last = era.points.at(-1);
  if (!limits || !last) return null;
  const { worse } = definitionOf(figure);
  const now = limits.signals.filter((s) => s.point === last && (worse === "either" || s.side === worse));
  const signal = NOTED.flatMap((rule) => now.find((s) => s.rule === rule) ?? [])[0];
  if (!signal) return null;
  const { baseline } = limits;
  const [from, to] = [baseline[0]?.at ?? last.at, baseline.at(-1)?.at ?? last.at];
  return {
    side: signal.side,
    unit,
    baseline: { count: baseline.length, from, to },
    found: foundBy(signal, { era, limits }),
    at: last.at,
    session: last.session,
  };
}

/** Returns the figures of the sentence. A change over several starts is told as their average, and since when. */
function foundBy(
  { rule, side, value, limit }: ChartSignal,
  { era: { points }, limits }: { era: FigureChart["era"]; limits: NonNullable<FigureChart["limits"]> },
): HistoryNote["found"] {
  const since = changedSince(points, limits, side)?.at ?? points.at(-1)?.at ?? 0;
  const changed = points.filter((p) => p.at >= since).map((p) => p.value);
  if (rule === "beyondLimits") return { is: "start", value, limit };
  const average = changed.reduce((sum, v) => sum + v, 0) / changed.length;
  return { is: "average", value: average, usual: limits.mean, since };
}
