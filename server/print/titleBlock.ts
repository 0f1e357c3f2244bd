import type { Face } from "./faces.ts";
import { LINE, PAGE, type Tone, WIDTH } from "./look.ts";
import type { Sheet } from "./sheet.ts";

export interface TitleCell {
  label: string;
  value: string;
  /** Fraction of the row's width. */
  share: number;
  size?: number;
  face?: Face;
  tone?: Tone;
}

const PAD = 5;

/** Draws a title block: rows of labelled cells, as on an engineering drawing. */
export function titleBlock(sheet: Sheet, rows: readonly (readonly TitleCell[])[]): void {
  const top = sheet.y;
  for (const row of rows) {
    const style = (c: TitleCell) =>
      ({ face: c.face ?? "plain", size: c.size ?? 10, tone: c.tone ?? "ink" }) as const;
    const widthOf = (c: TitleCell) => c.share * WIDTH - 2 * PAD;
    const height = Math.max(...row.map((c) => sheet.heightOf(c.value, widthOf(c), style(c)))) + 2 * PAD + 9;
    let x: number = PAGE.left;
    for (const cell of row) {
      if (x > PAGE.left) sheet.line(x, sheet.y, x, sheet.y + height, "ink");
      sheet.write(cell.label, x + PAD, sheet.y + PAD - 1, { size: 6.5, tone: "soft" });
      sheet.write(cell.value, x + PAD, sheet.y + PAD + 8, style(cell), widthOf(cell));
      x += cell.share * WIDTH;
    }
    sheet.y += height;
    sheet.rule(sheet.y, "ink");
  }
  sheet.box(PAGE.left, top, WIDTH, sheet.y - top, "ink", LINE);
  sheet.y += 6;
}
