import type { Face } from "./faces.ts";
import { LINE, PAGE, type Tone, WIDTH } from "./look.ts";
import type { Sheet } from "./sheet.ts";
import type { PrintWords } from "./words/en.ts";
import { printWords } from "./words.ts";

export interface TableColumn {
  head: string;
  /** Fraction of the table's width. The shares of a table add up to 1. */
  share: number;
  face?: Face;
  size?: number;
}

export interface TableRow {
  cells: readonly (string | null)[];
  tone?: Tone;
}

/** Columns for an event's number and time. */
export const numberOf = (print: PrintWords): TableColumn => ({ head: print.number, share: 0.07 });
export const timeOf = (print: PrintWords): TableColumn => ({ head: print.time, share: 0.12 });

const PAD = 3;
const GAP = 6;

/**
 * Writes a table with a line below each row. The column heads repeat on every page. Writes `empty` when there are no
 * rows.
 */
export async function table(
  sheet: Sheet,
  columns: readonly TableColumn[],
  rows: readonly TableRow[],
  empty = printWords(sheet.language).none,
): Promise<void> {
  if (rows.length === 0) return sheet.para(empty, { tone: "soft" });
  const places = columns.map((c, i) => {
    const before = columns.slice(0, i).reduce((sum, { share }) => sum + share, 0);
    return { x: PAGE.left + before * WIDTH, width: c.share * WIDTH - GAP };
  });
  const heads = () => {
    columns.forEach((c, i) => {
      const { x = 0, width = 0 } = places[i] ?? {};
      sheet.write(c.head, x, sheet.y, { size: 7, tone: "soft" }, width);
    });
    sheet.y +=
      Math.max(...columns.map((c, i) => sheet.heightOf(c.head, places[i]?.width ?? 1, { size: 7 }))) + 2;
    sheet.rule(sheet.y, "ink", LINE);
  };
  sheet.need(40);
  heads();
  for (const row of rows) {
    const style = (i: number) => ({
      face: columns[i]?.face ?? "plain",
      size: columns[i]?.size ?? 8.5,
      tone: row.tone ?? "ink",
    });
    const heights = row.cells.map((text, i) =>
      text === null ? 0 : sheet.heightOf(text, places[i]?.width ?? 1, style(i)),
    );
    const height = Math.max(...heights) + 2 * PAD;
    if (sheet.need(height)) heads();
    row.cells.forEach((text, i) => {
      const { x = 0, width = 0 } = places[i] ?? {};
      if (text !== null && text !== "") sheet.write(text, x, sheet.y + PAD, style(i), width);
    });
    sheet.y += height;
    sheet.rule(sheet.y);
    await sheet.breathe();
  }
  sheet.y += 4;
}
