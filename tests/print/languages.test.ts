import { describe, expect, it } from "vitest";
import { printBrief } from "../../server/print/brief.ts";
import { printCard } from "../../server/print/card.ts";
import { printRecord } from "../../server/print/record.ts";
import { print as englishPrint } from "../../server/print/words/en.ts";
import { briefOf } from "../../shared/paper/brief.ts";
import { cardOf } from "../../shared/paper/card.ts";
import { recordOf } from "../../shared/paper/record.ts";
import { brief as englishBrief } from "../../shared/words/en/brief.ts";
import { catalogue as english } from "../../shared/words/en/catalogue.ts";
import { events as englishEvents } from "../../shared/words/en/events.ts";
import { say } from "../../shared/words/es.ts";
import { bearer, signIn, testServer } from "../http/test-server.ts";
import { exported, given, START } from "../spec/given.ts";
import { leaves } from "../words/leaves.ts";
import { readPdf, solid } from "./reader.ts";
import { seeded, troubled } from "./troubled.ts";

/** Time to print and read back on a machine that is busy with other tests. */
const SLOW_MS = 120_000;
const KESTLE = seeded("kestle-four");

const story = troubled();
const SHEETS: [name: string, print: () => Promise<Buffer>, says: string[]][] = [
  [
    "brief",
    () => printBrief(briefOf(given({ type: KESTLE, order: [4, 3, 2, 1] }).manned().state, [], say), START),
    ["Briefing de arranque", "Palabras que paran todo", "ALTO (HOLD)", "Motor 4 (estribor exterior)"],
  ],
  [
    "record",
    () => printRecord(recordOf(story.log, exported(story.log).manifest.head, say), story.now, "full"),
    ["Registro de arranque", "Exceptuado por una segunda persona", "Todos los eventos", "Impreso "],
  ],
  [
    "card",
    () => printCard(cardOf([KESTLE], say), START),
    ["SISTEMA PERDIDO", "ALTO (HOLD)", "Señales de mano"],
  ],
];

/** Text by the authors of the types, which is printed as they wrote it. */
const WRITTEN = solid(JSON.stringify([KESTLE, story.log[0]]));

/** English sentences that are long enough not to occur inside Spanish words or in an author's text. */
const ENGLISH = [english, englishEvents, englishBrief, englishPrint]
  .flatMap((catalogue) => [...leaves(catalogue).values()].map((l) => l.words))
  .filter(
    (words) =>
      words.length > 12 && words.includes(" ") && !WRITTEN.includes(solid(words)) && !/7[1-6]|\{/.test(words),
  );

describe("paper in Spanish", () => {
  it.each(SHEETS)(
    "[LNG-6] the %s says all of its own in Spanish, its caution on every page",
    async (_, print, says) => {
      const { pages, solid: text } = await readPdf(await print());
      for (const words of says) expect(text).toContain(solid(words));
      for (const page of pages) expect(solid(page)).toContain(solid(say.caution));
      expect(pages[0]).toContain(`1 de ${pages.length}`);
      expect(ENGLISH.filter((words) => text.includes(solid(words)))).toEqual([]);
    },
    SLOW_MS,
  );

  it(
    "[LNG-6] is printed in the language its reader asks for, English where none of theirs is known",
    async () => {
      const test = await testServer();
      const token = await signIn(test.app, "di");
      const take = async (wish: string | null) => {
        const headers = { ...bearer(token), ...(wish === null ? {} : { "accept-language": wish }) };
        const { rawPayload } = await test.app.inject({ url: "/api/card.pdf", headers });
        return (await readPdf(rawPayload)).solid;
      };
      expect(await take("es-CO,es;q=0.9,en;q=0.5")).toContain("SISTEMAPERDIDO");
      expect(await take("es;q=0.1, en;q=0.8")).toContain("SYSTEMLOST");
      expect(await take("fr")).toContain("SYSTEMLOST");
      expect(await take(null)).toContain("SYSTEMLOST");
      await test.close();
    },
    SLOW_MS,
  );
});
