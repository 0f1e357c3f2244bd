import type { HistoryFigure } from "../../shared/history/figures.ts";
import { HISTORY_FIGURES } from "../../shared/history/figures.ts";
import type { StartRow } from "../../shared/history/row.ts";

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
    crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    equipment: [],
    alerts: [],
    stops: [],
    ...more,
  };
}

/** One start a day, each with one value of a figure. */
export function rowsOf(figure: HistoryFigure, values: readonly number[]): StartRow[] {
  const unit = HISTORY_FIGURES[figure].unit ?? "psi";
  return values.map((value, i) => startRow(i + 1, { figures: { [figure]: { value, unit } } }));
}
