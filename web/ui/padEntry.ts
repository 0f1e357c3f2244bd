import { onScale } from "./figureSpec.ts";
import type { Outcome, PadCell, PadView } from "./padView.ts";
import { type DigitKey, figureTyped, isWhole, onTheScale, type Typed, typedWith } from "./typedFigure.ts";

/** A figure of the pad while it is entered. A cell that is missing is blank. */
interface Entered {
  typed: Typed;
  /** Id of its command once it was sent. */
  sent: string | null;
}

/** The entries of a person in a pad. It starts blank: nothing is sent that the person did not enter. */
export interface PadEntry {
  cells: Readonly<Record<string, Entered>>;
  /** Id of the cell that the person chose; null for the first blank one. */
  at: string | null;
}

export const BLANK_PAD: PadEntry = { cells: {}, at: null };

type OutcomeOf = (sent: string) => Outcome | null;

/** Returns the cells that are asked for, in the order in which they are read. */
export function dueCells({ rows, engines, byEngine }: PadView): PadCell[] {
  const due = (cells: readonly PadCell[]) => cells.filter((c) => c.answer !== null);
  if (!byEngine) return rows.flatMap((r) => due(r.cells));
  const ofEngine = (n: number | null) => rows.flatMap((r) => due(r.cells.filter((c) => c.engine === n)));
  return [...engines.flatMap(ofEngine), ...ofEngine(null)];
}

/** Returns the figure in a cell; null while it is blank or no number. */
export const valueIn = ({ cells }: PadEntry, id: string): number | null =>
  figureTyped(cells[id]?.typed ?? "");

export const typedIn = ({ cells }: PadEntry, id: string): Typed => cells[id]?.typed ?? "";

/** Returns the entry without the figures that are recorded by now. A refused figure stays, so that it is not lost. */
export function settled(entry: PadEntry, outcomeOf: OutcomeOf): PadEntry {
  const left = Object.entries(entry.cells).filter(
    ([, { sent }]) => sent === null || outcomeOf(sent)?.is !== "recorded",
  );
  if (left.length === Object.keys(entry.cells).length) return entry;
  return { ...entry, cells: Object.fromEntries(left) };
}

/** Returns the cell that the keys enter: the chosen one while it is asked for, otherwise the first blank one. */
export function cellAt(view: PadView, entry: PadEntry): PadCell | null {
  const due = dueCells(view);
  return due.find((c) => c.id === entry.at) ?? firstBlank(due, entry) ?? due[0] ?? null;
}

const firstBlank = (due: readonly PadCell[], entry: PadEntry) => due.find((c) => typedIn(entry, c.id) === "");

function put(entry: PadEntry, id: string, typed: Typed, at: string | null): PadEntry {
  return { cells: { ...entry.cells, [id]: { typed, sent: null } }, at };
}

/** Returns the id of the next blank cell after this one, around to the first; null when none is left. */
function nextBlank(view: PadView, entry: PadEntry, id: string): string | null {
  const due = dueCells(view);
  const here = due.findIndex((c) => c.id === id);
  const after = [...due.slice(here + 1), ...due.slice(0, here)];
  return firstBlank(after, entry)?.id ?? null;
}

/** Returns the entry after a digit key. A whole figure goes on to the next blank cell. */
export function withDigit(view: PadView, entry: PadEntry, key: DigitKey): PadEntry {
  const cell = cellAt(view, entry);
  if (!cell) return entry;
  const typed = typedWith(cell.spec, typedIn(entry, cell.id), key);
  const next = put(entry, cell.id, typed, cell.id);
  if (key === "back" || !isWhole(cell.spec, typed)) return next;
  return { ...next, at: nextBlank(view, next, cell.id) ?? cell.id };
}

/** Returns the entry after a touch of the scale, which enters a figure at once and goes on. */
export function withTouch(view: PadView, entry: PadEntry, value: number): PadEntry {
  const cell = cellAt(view, entry);
  if (!cell) return entry;
  const next = put(entry, cell.id, String(onScale(cell.spec, value)), cell.id);
  return { ...next, at: nextBlank(view, next, cell.id) ?? cell.id };
}

/** Returns the entry after step keys, which stay at the cell. A blank cell steps from no limit. */
export function withSteps(view: PadView, entry: PadEntry, steps: number): PadEntry {
  const cell = cellAt(view, entry);
  if (!cell) return entry;
  const { spec, id } = cell;
  return put(entry, id, String(onScale(spec, (valueIn(entry, id) ?? spec.start) + steps * spec.step)), id);
}

export const chosen = (entry: PadEntry, id: string): PadEntry => ({ ...entry, at: id });

export function next(view: PadView, entry: PadEntry): PadEntry {
  const cell = cellAt(view, entry);
  return cell ? { ...entry, at: nextBlank(view, entry, cell.id) ?? cell.id } : entry;
}

/** The figure that one touch enters in every blank cell of its row, and the row; null where it may not. */
export function alike(view: PadView, entry: PadEntry): { row: string; typed: Typed } | null {
  for (const row of view.rows.filter((r) => r.setAlike)) {
    const due = row.cells.filter((c) => c.answer !== null);
    const blank = due.some((c) => typedIn(entry, c.id) === "");
    const read = due.find((c) => isUsable(c, entry));
    if (blank && read) return { row: row.id, typed: typedIn(entry, read.id) };
  }
  return null;
}

export function withAlike(view: PadView, entry: PadEntry): PadEntry {
  const of = alike(view, entry);
  const row = view.rows.find((r) => r.id === of?.row);
  if (!of || !row) return entry;
  const blank = row.cells.filter((c) => c.answer !== null && typedIn(entry, c.id) === "");
  const filled = Object.fromEntries(blank.map((c) => [c.id, { typed: of.typed, sent: null }]));
  return { cells: { ...entry.cells, ...filled }, at: null };
}

/** True for a figure on its instrument's scale. */
export function isUsable(cell: PadCell, entry: PadEntry): boolean {
  const value = valueIn(entry, cell.id);
  return value !== null && onTheScale(cell.spec, value);
}

/** Returns the cells whose figures the next send takes: entered, usable, and not on their way. */
export function toSend(view: PadView, entry: PadEntry, outcomeOf: OutcomeOf): PadCell[] {
  return dueCells(view).filter((c) => {
    const sent = entry.cells[c.id]?.sent ?? null;
    return isUsable(c, entry) && (sent === null || outcomeOf(sent)?.is !== "sending");
  });
}

/** Returns the cells that are asked for and have no usable figure. */
export const missing = (view: PadView, entry: PadEntry): PadCell[] =>
  dueCells(view).filter((c) => !isUsable(c, entry));

/** Returns the entry with the ids of the commands that were sent. A figure without one was not sent and stays. */
export function withSent(entry: PadEntry, sent: ReadonlyMap<string, string | null>): PadEntry {
  const cells = Object.entries(entry.cells).map(([id, e]) => [
    id,
    sent.has(id) ? { ...e, sent: sent.get(id) ?? null } : e,
  ]);
  return { cells: Object.fromEntries(cells), at: null };
}
