import { columnsOf, type ExchangeRow } from "../../shared/paper/exchange.ts";
import type { Say } from "../../shared/words/say.ts";
import { INK, LINE, PAGE, THIN, type Tone, WIDTH } from "./look.ts";
import type { Sheet } from "./sheet.ts";
import { timeOfDay } from "./times.ts";

/** Width of the numbers and times left of the lines, in points. */
const MARGIN = 84;
const ROW = 21;
const HEAD = 16;
const TEXT = 7.5;
type ArrowRow = Exclude<ExchangeRow, { is: "note" }>;
type NoteRow = Extract<ExchangeRow, { is: "note" }>;

const TONES: Readonly<Record<ExchangeRow["tone"], Tone>> = {
  plain: "ink",
  hold: "warning",
  danger: "danger",
  quiet: "soft",
  warning: "warning",
  stage: "ink",
};

/**
 * Draws the exchange as a message sequence chart (the idea of ITU-T Z.120), on as many pages as it needs. Notes whose
 * event number is in `red` are drawn in red.
 */
export async function drawExchange(
  sheet: Sheet,
  rows: readonly ExchangeRow[],
  say: Say,
  red: ReadonlySet<number>,
): Promise<void> {
  const observed = rows.some((r) => r.is !== "note" && (r.from === "none" || r.to.includes("none")));
  const columns = columnsOf(say).filter((c) => c.id !== "none" || observed);
  const gap = (WIDTH - MARGIN) / columns.length;
  const xOf = (id: string) => PAGE.left + MARGIN + gap * (columns.findIndex((c) => c.id === id) + 0.5);
  const heads = () => {
    for (const { id, name } of columns)
      sheet.write(name, xOf(id) - gap / 2, sheet.y, { face: "bold", size: 9, align: "center" }, gap);
    sheet.y += HEAD;
  };
  sheet.need(HEAD + 3 * ROW);
  heads();
  for (const row of rows) {
    if (sheet.need(ROW)) heads();
    for (const { id } of columns) sheet.line(xOf(id), sheet.y, xOf(id), sheet.y + ROW);
    sheet.write(String(row.seq), PAGE.left, sheet.y + 6, { size: 7.5, tone: "soft", align: "right" }, 24);
    sheet.write(timeOfDay(row.at) ?? "", PAGE.left + 30, sheet.y + 6, { size: 7.5 });
    if (row.is === "note") note(sheet, row, xOf, red.has(row.seq) ? "danger" : TONES[row.tone]);
    else arrow(sheet, row, xOf);
    sheet.y += ROW;
    await sheet.breathe();
  }
}

function note(sheet: Sheet, row: NoteRow, xOf: (id: string) => number, tone: Tone): void {
  const left = PAGE.left + MARGIN;
  const face = row.tone === "stage" ? "bold" : "plain";
  const text = shortened(sheet, row.text, WIDTH - MARGIN - 10, face);
  const own = sheet.widthOf(text, { size: TEXT, face }) + 10;
  const width = row.on === null ? WIDTH - MARGIN : own;
  const x = row.on === null ? left : Math.max(left, Math.min(xOf(row.on) - width / 2, PAGE.right - width));
  sheet.doc.rect(x, sheet.y + 3, width, ROW - 6).fill(INK.paper);
  sheet.box(
    x,
    sheet.y + 3,
    width,
    ROW - 6,
    row.tone === "quiet" ? "rule" : tone,
    row.tone === "stage" ? LINE : THIN,
  );
  sheet.write(text, x + 5, sheet.y + 6.5, { size: TEXT, tone, face });
}

function arrow(sheet: Sheet, row: ArrowRow, xOf: (id: string) => number): void {
  const tone = TONES[row.tone];
  const y = sheet.y + ROW - 5;
  const from = xOf(row.from);
  const ends = row.to.map(xOf).filter((x) => Number.isFinite(x) && x !== from);
  const left = Math.min(from, ...ends);
  const weight = row.tone === "plain" ? LINE : 1.4;
  if (row.is === "answer") sheet.doc.dash(3, { space: 2 });
  for (const end of ends) sheet.line(from, y, end, y, tone, weight);
  sheet.doc.undash();
  for (const end of ends) head(sheet, end, y, Math.sign(end - from), INK[tone]);
  sheet.doc.circle(from, y, 2).fill(INK[tone]);
  if (row.is === "refused") cross(sheet, (from + (ends[0] ?? from)) / 2, y);
  const words = row.by === null ? row.text : `${row.text} (${row.by})`;
  const text = shortened(sheet, words, WIDTH - MARGIN - 8);
  const width = sheet.widthOf(text, { size: TEXT });
  const x = Math.max(PAGE.left + MARGIN + 4, Math.min(left + 6, PAGE.right - width));
  sheet.doc.rect(x - 1, sheet.y + 2, width + 2, 9).fill(INK.paper);
  sheet.write(text, x, sheet.y + 2.5, { size: TEXT, tone });
}

function head(sheet: Sheet, x: number, y: number, towards: number, colour: string): void {
  sheet.doc
    .moveTo(x, y)
    .lineTo(x - 6 * towards, y - 2.6)
    .lineTo(x - 6 * towards, y + 2.6)
    .fill(colour);
}

/** Crosses out the arrow of a refused signal. */
function cross(sheet: Sheet, x: number, y: number): void {
  sheet.line(x - 4.5, y - 4.5, x + 4.5, y + 4.5, "danger", 1.6);
  sheet.line(x - 4.5, y + 4.5, x + 4.5, y - 4.5, "danger", 1.6);
}

/** Returns the text cut to `room` points. The full text is in the table of events. */
function shortened(sheet: Sheet, text: string, room: number, face: "plain" | "bold" = "plain"): string {
  if (sheet.widthOf(text, { size: TEXT, face }) <= room) return text;
  let most = text.length;
  while (most > 1 && sheet.widthOf(`${text.slice(0, most)}…`, { size: TEXT, face }) > room) most -= 3;
  return `${text.slice(0, most).trimEnd()}…`;
}
