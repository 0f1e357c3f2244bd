import { convert } from "../../models/units.ts";
import type { Unit } from "../../protocol/quantity.ts";
import { definitionOf, type HistoryFigure } from "../figures.ts";
import type { StartRow } from "../row.ts";

/** Why a series begins anew: nothing before it is compared with what follows. */
export type EraCause = "first" | "moved" | "overhauled" | "otherStarter";

/** One start on a chart. */
export interface StartPoint {
  session: string;
  seq: number;
  at: number;
  value: number;
}

/** Starts that can be compared: one engine at one place, between two overhauls; for some figures one starter too. */
export interface Era {
  cause: EraCause;
  since: number;
  points: StartPoint[];
}

/**
 * Returns one figure of an engine's starts, oldest first, apart where the engine was moved, where its hours began again
 * and, for a figure of the starter, where another was fitted. Null when nobody ever read the figure. A figure in
 * another unit is converted to the first one's; one that cannot be converted is left out.
 */
export function erasOf(rows: readonly StartRow[], figure: HistoryFigure): { unit: Unit; eras: Era[] } | null {
  const unit = rows.find((r) => r.figures[figure])?.figures[figure]?.unit;
  if (unit === undefined) return null;
  const eras: Era[] = [];
  let before: StartRow | undefined;
  for (const row of [...rows].sort((a, b) => a.at - b.at)) {
    const cause = before ? anew(before, row, figure) : "first";
    if (cause !== null) eras.push({ cause, since: row.at, points: [] });
    before = { ...row, hours: row.hours ?? before?.hours ?? null };
    const value = figureValue(row, figure, unit);
    if (value !== null) eras.at(-1)?.points.push({ session: row.session, seq: row.seq, at: row.at, value });
  }
  return { unit, eras };
}

function anew(before: StartRow, row: StartRow, figure: HistoryFigure): EraCause | null {
  if (before.aircraft !== row.aircraft || before.n !== row.n) return "moved";
  if (before.hours !== null && row.hours !== null && row.hours < before.hours) return "overhauled";
  if (definitionOf(figure).ofStarter && before.starter !== row.starter) return "otherStarter";
  return null;
}

function figureValue(row: StartRow, figure: HistoryFigure, unit: Unit): number | null {
  // The seconds of an engine that did not catch are those of the crew's patience.
  if (figure === "starterS" && row.reached === "cranked") return null;
  const read = row.figures[figure];
  const got = read && convert(read, unit);
  return got?.ok ? got.value.value : null;
}
