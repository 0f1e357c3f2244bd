/** One record of a file. `line`: the line of the text on which it begins, from 1. */
export interface CsvRow {
  line: number;
  cells: string[];
}

/** Something that is wrong with a file, and where. `line` from 1; `column` by its name, null for the whole line. */
export interface CsvFault {
  line: number;
  column: string | null;
  message: string;
}

/** A spreadsheet runs a cell that begins with one of these as a formula (OWASP, CSV Injection). */
const FORMULA = /^[=+\-@\t\r＝＋－＠]/;
/** A cell that was made text for spreadsheets, or that only looks like one. */
const MADE_TEXT = /^'[=+\-@\t\r＝＋－＠']/;

/**
 * Returns a file as RFC 4180 describes it. A cell that a spreadsheet would run as a formula begins with an apostrophe,
 * and so does one that begins with an apostrophe itself, so that reading gives back what was written.
 */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(cellOf).join(",")}\r\n`).join("");
}

function cellOf(text: string): string {
  const guarded = FORMULA.test(text) || text.startsWith("'");
  const safe = guarded ? `'${text}` : text;
  return guarded || /[",;\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Returns the text of a cell without the apostrophe that makes it text for spreadsheets. */
export const withoutGuard = (cell: string): string => (MADE_TEXT.test(cell) ? cell.slice(1) : cell);

/**
 * Returns the records of a file as RFC 4180 describes it, or its first fault. Lines may end with LF alone, and empty
 * lines are left out. Cells are returned as they stand, guards included.
 * @param separator a comma; spreadsheets of some countries write a semicolon
 */
export function readCsv(
  text: string,
  separator: "," | ";" = ",",
): { rows: CsvRow[] } | { faults: CsvFault[] } {
  const rows: CsvRow[] = [];
  let line = 1;
  let at = text.startsWith("\uFEFF") ? 1 : 0;
  const fault = (on: number, message: string) => ({ faults: [{ line: on, column: null, message }] });
  while (at < text.length) {
    const row: CsvRow = { line, cells: [] };
    for (let more = true; more; ) {
      let cell = "";
      if (text[at] === '"') {
        const began = line;
        for (at += 1; ; at += 1) {
          if (at >= text.length) return fault(began, "a quoted cell does not end");
          if (text[at] === '"') {
            if (text[at + 1] !== '"') break;
            at += 1;
          }
          if (text[at] === "\n") line += 1;
          cell += text[at];
        }
        at += 1;
        if (at < text.length && text[at] !== separator && !isBreak(text, at))
          return fault(line, "a quoted cell is followed by other text");
      } else {
        for (; at < text.length && text[at] !== separator && !isBreak(text, at); at += 1) {
          if (text[at] === '"') return fault(line, "a quotation mark stands in a cell that is not quoted");
          cell += text[at];
        }
      }
      row.cells.push(cell);
      more = text[at] === separator;
      if (more) at += 1;
    }
    if (text[at] === "\r") at += 1;
    at += 1;
    line += 1;
    if (row.cells.length > 1 || row.cells[0] !== "") rows.push(row);
  }
  return { rows };
}

const isBreak = (text: string, at: number): boolean =>
  text[at] === "\n" || (text[at] === "\r" && text[at + 1] === "\n");
