import type { Card } from "../../shared/brief/card.ts";
import { ANYONE_STOPS, STOP_WORDS } from "../../shared/brief/fixedWords.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { drawDrill } from "./drillCard.ts";
import { PAGE, WIDTH } from "./look.ts";
import { Sheet } from "./sheet.ts";
import { drawSignals } from "./signalList.ts";
import { table } from "./table.ts";
import { titleBlock } from "./titleBlock.ts";

/** Tries that fit on the log of one engine. */
const TRIES = 3;
const LOG_ROW = 26;
const LOG = [
  "Engine",
  "Asked",
  "Cleared",
  "Starter on",
  "Starter off",
  "Caught",
  "Oil first",
  "Oil normal",
  "Stable",
];

/** The card that takes over on paper, as a PDF. The same card and `now` give the same bytes. */
export async function printCard(card: Card, now: number): Promise<Buffer> {
  const sheet = new Sheet({
    title: "System lost: printed card",
    about: "By hand signals and paper",
    now,
    caution: card.caution,
  });
  titleBlock(sheet, [
    [
      {
        label: "Printed card",
        value: "SYSTEM LOST",
        share: 0.55,
        size: 24,
        face: "monoBold",
        tone: "danger",
      },
      { label: "First", value: "HOLD", share: 0.45, size: 24, face: "monoBold", tone: "danger" },
    ],
    [
      {
        label: "For",
        value: "Every post. Keep it at hand before any start: it needs no panel, server or network.",
        share: 1,
      },
    ],
  ]);
  for (const drill of card.drills) {
    const title = `${drill.title}: ${drill.types.join(", ")}`;
    drawDrill(sheet, { title, cards: drill.cards, source: { text: drill.source } }, SPOKEN[card.language]);
  }
  for (const name of card.without)
    sheet.para(`${name} has no card of its own: hold, then hand signals and the approved manual.`, {
      tone: "danger",
    });
  sheet.heading("Words that stop everything", "danger");
  await table(
    sheet,
    [
      { head: "Say", share: 0.3, face: "monoBold", size: 11 },
      { head: "It means", share: 0.7, size: 9 },
    ],
    STOP_WORDS.map((w) => ({ cells: [w.say, w.means] })),
  );
  sheet.para(ANYONE_STOPS);
  sheet.page();
  sheet.heading("Hand signals");
  await drawSignals(sheet, card.signals);
  drawLog(sheet, card.engines);
  return sheet.finish();
}

/** Blank tables for times written by hand. */
function drawLog(sheet: Sheet, engines: number): void {
  sheet.page();
  titleBlock(sheet, [
    ["Aircraft", "Place", "Date", "Order"].map((label) => ({ label, value: " ", share: 0.25, size: 14 })),
    ["Cockpit", "Fire guard", "Ground power", "Supervisor"].map((label) => ({
      label,
      value: " ",
      share: 0.25,
      size: 14,
    })),
  ]);
  sheet.heading("Times, and whose time (UTC or local)");
  const width = WIDTH / LOG.length;
  const top = sheet.y;
  LOG.forEach((head, i) => {
    sheet.write(head, PAGE.left + i * width + 3, top + 3, { size: 7.5, tone: "soft" }, width - 6);
  });
  const rows = engines * TRIES;
  const body = top + 15;
  const row = Math.min(LOG_ROW, (PAGE.bottom - 190 - body) / rows);
  for (let r = 0; r <= rows; r++)
    sheet.rule(body + r * row, r % TRIES === 0 ? "ink" : "rule", r % TRIES === 0 ? 0.9 : 0.5);
  LOG.forEach((_, i) => {
    sheet.line(PAGE.left + i * width, top, PAGE.left + i * width, body + rows * row, "rule");
  });
  sheet.box(PAGE.left, top, WIDTH, body - top + rows * row, "ink", 0.9);
  sheet.y = body + rows * row + 4;
  sheet.heading("Volts, holds, cuts, fires, anything else", "ink", 100);
  while (sheet.y + 20 <= PAGE.bottom) {
    sheet.y += 20;
    sheet.rule(sheet.y);
  }
}
