import type { Card } from "../../shared/paper/card.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { briefWords } from "../../shared/words/brief.ts";
import type { Language } from "../../shared/words/language.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { drawDrill } from "./drillCard.ts";
import { PAGE, WIDTH } from "./look.ts";
import { Sheet } from "./sheet.ts";
import { drawSignals } from "./signalList.ts";
import { table } from "./table.ts";
import { titleBlock } from "./titleBlock.ts";
import { printWords } from "./words.ts";

/** Start attempts that the log has rows for, per engine. */
const TRIES = 3;
const LOG_ROW = 26;

/**
 * Returns the PDF of the card that a crew uses when the system is lost. The same card and `now` give the same bytes.
 */
export async function printCard(card: Card, now: number): Promise<Buffer> {
  const all = printWords(card.language);
  const words = all.card;
  const fixed = briefWords(card.language);
  const sheet = new Sheet({
    title: words.title,
    about: words.about,
    now,
    caution: card.caution,
    language: card.language,
  });
  titleBlock(sheet, [
    [
      {
        label: words.label,
        value: words.lost,
        share: 0.55,
        size: 24,
        face: "monoBold",
        tone: "danger",
      },
      { label: words.first, value: words.hold, share: 0.45, size: 24, face: "monoBold", tone: "danger" },
    ],
    [
      {
        label: words.whom,
        value: words.everyPost,
        share: 1,
      },
    ],
  ]);
  for (const drill of card.drills) {
    const title = `${drill.title}: ${drill.types.join(", ")}`;
    drawDrill(sheet, { title, cards: drill.cards, source: { text: drill.source } }, SPOKEN[card.language]);
  }
  for (const name of card.without)
    sheet.para(words.without(name), {
      tone: "danger",
    });
  sheet.heading(all.stopWords, "danger");
  await table(
    sheet,
    [
      { head: all.say, share: 0.3, face: "monoBold", size: 11 },
      { head: all.means, share: 0.7, size: 9 },
    ],
    fixed.stops.map((w) => ({ cells: [w.say, w.means] })),
  );
  sheet.para(fixed.anyoneStops);
  sheet.page();
  sheet.heading(words.signals);
  await drawSignals(sheet, card.signals, card.language);
  drawLog(sheet, card.engines, card.language);
  return sheet.finish();
}

/** Draws blank tables for times written by hand. */
function drawLog(sheet: Sheet, engines: number, language: Language): void {
  const all = printWords(language);
  const words = all.card;
  const log = [
    all.engine,
    ...[words.asked, words.cleared, words.on, words.off],
    ...[words.caught, words.oilFirst, words.oilNormal, words.stable],
  ];
  sheet.page();
  titleBlock(sheet, [
    [words.aircraft, all.place, words.date, words.order].map((label) => ({
      label,
      value: " ",
      share: 0.25,
      size: 14,
    })),
    POSTS.map((post) => ({
      label: SPOKEN[language].post(post),
      value: " ",
      share: 0.25,
      size: 14,
    })),
  ]);
  sheet.heading(words.times);
  const width = WIDTH / log.length;
  const top = sheet.y;
  log.forEach((head, i) => {
    sheet.write(head, PAGE.left + i * width + 3, top + 3, { size: 7.5, tone: "soft" }, width - 6);
  });
  const rows = engines * TRIES;
  const body = top + 15;
  const row = Math.min(LOG_ROW, (PAGE.bottom - 190 - body) / rows);
  for (let r = 0; r <= rows; r++)
    sheet.rule(body + r * row, r % TRIES === 0 ? "ink" : "rule", r % TRIES === 0 ? 0.9 : 0.5);
  log.forEach((_, i) => {
    sheet.line(PAGE.left + i * width, top, PAGE.left + i * width, body + rows * row, "rule");
  });
  sheet.box(PAGE.left, top, WIDTH, body - top + rows * row, "ink", 0.9);
  sheet.y = body + rows * row + 4;
  sheet.heading(words.rest, "ink", 100);
  while (sheet.y + 20 <= PAGE.bottom) {
    sheet.y += 20;
    sheet.rule(sheet.y);
  }
}
