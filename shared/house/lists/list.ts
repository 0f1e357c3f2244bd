import { type CsvFault, readCsv, withoutGuard } from "./csv.ts";

/** One line of a list: its cells by column. Columns that the file does not have are absent. */
export interface ListRow {
  line: number;
  cells: Readonly<Record<string, string>>;
}

/** The lists of a house that leave and enter it as files. */
export const LISTS = ["people", "aircraft", "equipment"] as const;
export type ListKind = (typeof LISTS)[number];

/** Most lines of a list that are read at once. */
const MOST_ROWS = 1_000;

/**
 * Returns the lines of a list, or every fault in its form: an unknown column, one that is missing, a line with another
 * number of cells, and a key that is named twice.
 * @param key the column that identifies a line; capitals do not distinguish
 */
export function readList(
  text: string,
  columns: readonly string[],
  key: string,
): { rows: ListRow[] } | { faults: CsvFault[] } {
  const header = /^[^\r\n]*/.exec(text)?.[0] ?? "";
  const read = readCsv(text, header.includes(",") || !header.includes(";") ? "," : ";");
  if ("faults" in read) return read;
  const [head, ...rows] = read.rows;
  const names = head?.cells.map((c) => withoutGuard(c).trim()) ?? [];
  const faults: CsvFault[] = [];
  const about = (line: number, column: string | null, message: string) =>
    faults.push({ line, column, message });
  const first = head?.line ?? 1;
  if (!names.includes(key)) about(first, null, `the first line must name the column ${key}`);
  names.forEach((name, i) => {
    if (names.indexOf(name) !== i) about(first, name, "is named twice");
    else if (!columns.includes(name)) about(first, name, `is no column of this list: ${columns.join(" ")}`);
  });
  if (rows.length > MOST_ROWS) about(rows[MOST_ROWS]?.line ?? 1, null, `more than ${MOST_ROWS} lines`);
  if (faults.length > 0) return { faults };
  const seen = new Map<string, number>();
  const listed = rows.map(({ line, cells }): ListRow => {
    if (cells.length !== names.length)
      about(line, null, `has ${cells.length} cells, and the first line has ${names.length}`);
    const row = Object.fromEntries(names.map((name, i) => [name, withoutGuard(cells[i] ?? "").trim()]));
    const id = (row[key] ?? "").toLowerCase();
    const before = seen.get(id);
    if (id === "") about(line, key, "must not be empty");
    else if (before !== undefined) about(line, key, `is on line ${before} already`);
    seen.set(id, line);
    return { line, cells: row };
  });
  return faults.length > 0 ? { faults } : { rows: listed };
}

/** The change that a line of a file makes in the house. `before` and `after` are cells. */
export interface ListChange {
  line: number;
  id: string;
  is: "added" | "changed" | "same";
  cells: { column: string; before: string; after: string }[];
}

/** Returns what differs between two states of a thing, column by column. */
export function cellsChanged(
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
): ListChange["cells"] {
  const columns = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return columns.flatMap((column) => {
    const [was, is] = [before[column] ?? "", after[column] ?? ""];
    return was === is ? [] : [{ column, before: was, after: is }];
  });
}

/** Returns a figure, null for an empty cell, or the text itself when it is no figure, so that its fault is named. */
export function figureIn(cell: string | undefined): number | string | null {
  if (cell === undefined || cell === "") return null;
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(cell) ? Number(cell) : cell;
}

export const textIn = (cell: string | undefined): string | null => (cell ? cell : null);
export const written = (value: string | number | null | undefined): string => String(value ?? "");
