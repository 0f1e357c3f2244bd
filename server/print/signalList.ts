import { handSignal } from "../../shared/handSignals/all.ts";
import type { Tone } from "../../shared/handSignals/marks.ts";
import { still } from "../../shared/handSignals/strip.ts";
import type { SignalRow } from "../../shared/paper/signals.ts";
import type { Language } from "../../shared/words/language.ts";
import { INK, PAGE, WIDTH } from "./look.ts";
import type { Sheet } from "./sheet.ts";
import type { PrintWords } from "./words/en.ts";
import { printWords } from "./words.ts";

/** Space for a figure, in points. */
const FIGURE = { width: 64, height: 54 };
/**
 * Line widths are chosen for this height, in points. It is more than the figure's, so that the lines come out thin.
 */
const LINES_FOR = 110;
const COLUMNS = 2;
const PAD = 4;

const ON_PAPER: Readonly<Record<Tone, string>> = {
  ink: INK.ink,
  soft: INK.rule,
  paper: INK.paper,
  light: "#cccccc",
};

/**
 * Draws hand signals in two columns: the figure as its receiver sees it, the words, sender and receivers, and the
 * movement.
 */
export async function drawSignals(
  sheet: Sheet,
  rows: readonly SignalRow[],
  language: Language,
): Promise<void> {
  const print = printWords(language);
  const width = WIDTH / COLUMNS;
  const room = width - FIGURE.width - 14;
  for (let i = 0; i < rows.length; i += COLUMNS) {
    const abreast = rows
      .slice(i, i + COLUMNS)
      .map((row) => ({ row, parts: partsOf(sheet, row, room, print) }));
    const tallest = Math.max(...abreast.map(({ parts }) => parts.reduce((sum, p) => sum + p.height, 0)));
    const height = Math.max(FIGURE.height, tallest) + 2 * PAD;
    sheet.need(height);
    abreast.forEach(({ row, parts }, column) => {
      const x = PAGE.left + column * width;
      drawFigure(sheet, row.figure, x, sheet.y + PAD);
      let y = sheet.y + PAD;
      for (const { text, style, height: own } of parts) {
        sheet.write(text, x + FIGURE.width + 6, y, style, room);
        y += own;
      }
    });
    sheet.y += height;
    sheet.rule(sheet.y);
    await sheet.breathe();
  }
  sheet.y += 3;
  sheet.para(print.drawn, {
    size: 7.5,
    tone: "soft",
  });
}

function partsOf(sheet: Sheet, row: SignalRow, room: number, print: PrintWords) {
  const parts = [
    { text: row.words, style: { face: "bold", size: 10 } },
    { text: print.fromTo(row.from, row.to), style: { size: 7.5, tone: "soft" } },
    { text: row.movement, style: { size: 8 } },
    { text: row.standard, style: { size: 6.5, tone: "soft" } },
  ] as const;
  return parts.map((p) => ({ ...p, height: sheet.heightOf(p.text, room, p.style) + 1 }));
}

function drawFigure(sheet: Sheet, key: string, x: number, y: number): void {
  const { box, marks } = still(handSignal(key), "day", LINES_FOR);
  const scale = Math.min(FIGURE.width / box.width, FIGURE.height / box.height);
  const { doc } = sheet;
  doc.save();
  doc.translate(x + (FIGURE.width - scale * box.width) / 2, y + (FIGURE.height - scale * box.height) / 2);
  doc.scale(scale, scale).translate(-box.x, -box.y).lineCap("round").lineJoin("round");
  for (const { d, stroke, fill, width, dashed } of marks) {
    doc.lineWidth(width);
    if (dashed) doc.dash(2.4, { space: 2 });
    doc.path(d);
    if (fill && stroke) doc.fillAndStroke(ON_PAPER[fill], ON_PAPER[stroke]);
    else if (fill) doc.fill(ON_PAPER[fill]);
    else if (stroke) doc.stroke(ON_PAPER[stroke]);
    doc.undash();
  }
  doc.restore();
}
