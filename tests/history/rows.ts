import type { HistoryFigure } from "../../shared/history/figures.ts";
import { HISTORY_FIGURES } from "../../shared/history/figures.ts";
import type { StartRow } from "../../shared/history/row.ts";

/** Montgomery's set for EWMA and CUSUM charts: 20 values at mean 10, then 10 at mean 11, sd 1. */
export const MONTGOMERY = [
  9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.2, 10.34, 9.03, 11.47, 10.51, 9.4, 10.08, 9.37, 10.62,
  10.31, 8.52, 10.84, 10.9, 9.33, 12.29, 11.5, 10.6, 11.08, 10.38, 11.62, 11.31, 10.52,
];
const DAY = 86_400_000;
export const FIRST_DAY = Date.UTC(2026, 0, 1, 9);

/** A start on the nth day of the year, with 6 s to oil pressure unless told otherwise. */
export function startRow(day: number, more: Partial<StartRow> = {}): StartRow {
  return {
    session: `s-${day}`,
    seq: 50,
    aircraft: "QX-ONE",
    n: 2,
    serial: "E-2",
    hours: 900,
    starter: "S-1",
    at: FIRST_DAY + (day - 1) * DAY,
    attempt: 1,
    cleared: true,
    reached: "stable",
    ended: null,
    resistance: false,
    power: "groundPower",
    figures: { oilFirstS: { value: 6, unit: "s" } },
    exceeded: [],
    differs: [],
    crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    equipment: [],
    alerts: [],
    stops: [],
    refusals: [],
    touches: 0,
    ...more,
  };
}

/** One start a day, each with one value of a figure. */
export function rowsOf(figure: HistoryFigure, values: readonly number[]): StartRow[] {
  const unit = HISTORY_FIGURES[figure].unit ?? "psi";
  return values.map((value, i) => startRow(i + 1, { figures: { [figure]: { value, unit } } }));
}
