import type { AttemptInWords } from "../../shared/paper/engineTimes.ts";
import type { SessionRecord } from "../../shared/paper/record.ts";
import type { Sheet } from "./sheet.ts";
import { type TableRow, table } from "./table.ts";
import { timeOfDay } from "./times.ts";
import type { PrintWords } from "./words/en.ts";
import { printWords } from "./words.ts";

/** Prints the times of each engine, one row per start attempt; nothing for a return in which none was made. */
export async function printEngines(sheet: Sheet, record: SessionRecord): Promise<void> {
  if (record.returned && record.engines.every((e) => e.attempts.length === 0)) return;
  const all = printWords(record.language);
  const words = { ...all.card, ...all.record };
  sheet.heading(words.engines);
  const figure = { size: 8 } as const;
  await table(
    sheet,
    [
      { head: all.engine, share: 0.07, face: "bold", size: 17 },
      { head: words.try, share: 0.035, ...figure },
      { head: words.asked, share: 0.1, ...figure },
      { head: words.cleared, share: 0.1, ...figure },
      { head: words.on, share: 0.1, ...figure },
      { head: words.starterS, share: 0.09, face: "bold", size: 8.5 },
      { head: words.caught, share: 0.1, ...figure },
      { head: words.oilFirst, share: 0.1, ...figure },
      { head: words.oilNormal, share: 0.1, ...figure },
      { head: words.stable, share: 0.1, ...figure },
      { head: words.endOf, share: 0.105, size: 7 },
    ],
    record.engines.flatMap(({ n, attempts }) =>
      attempts.length === 0
        ? [{ cells: [String(n), null, words.notAsked], tone: "soft" as const }]
        : attempts.map((a, i) => attemptRow(n, i, a, all.record)),
    ),
  );
}

function attemptRow(n: number, i: number, a: AttemptInWords, words: PrintWords["record"]): TableRow {
  const past = a.starterS !== null && a.starterMaxS !== null && a.starterS > a.starterMaxS;
  const after = (at: number | null, figure: string | null) =>
    at === null
      ? null
      : [timeOfDay(at), a.caught === null ? null : `+${((at - a.caught) / 1000).toFixed(1)} s`, figure]
          .filter((t) => t !== null)
          .join("\n");
  return {
    cells: [
      i === 0 ? String(n) : null,
      String(i + 1),
      timeOfDay(a.asked),
      a.wasCleared ? timeOfDay(a.cleared) : words.notCleared,
      timeOfDay(a.crankedAt),
      a.starterS === null
        ? null
        : `${a.starterS.toFixed(1)}\n${words.of(a.starterMaxS ?? "?")}${past ? `\n${words.past}` : ""}`,
      timeOfDay(a.caught),
      after(a.oilFirst, a.oilFirstFigure),
      after(a.oilNormal, a.oilNormalFigure),
      timeOfDay(a.stable),
      a.ended ? `${a.ended.words}\n${timeOfDay(a.ended.at)}` : null,
    ],
    tone: past || !a.wasCleared ? "danger" : "ink",
  };
}
