import type { Attempt } from "../../shared/brief/engineTimes.ts";
import type { SessionRecord } from "../../shared/brief/record.ts";
import type { Sheet } from "./sheet.ts";
import { type TableRow, table } from "./table.ts";
import { timeOfDay } from "./times.ts";

/** Times per engine, one row for each try. */
export async function printEngines(sheet: Sheet, record: SessionRecord): Promise<void> {
  sheet.heading("Engines");
  const figure = { size: 8 } as const;
  await table(
    sheet,
    [
      { head: "Engine", share: 0.07, face: "bold", size: 17 },
      { head: "Try", share: 0.035, ...figure },
      { head: "Asked", share: 0.1, ...figure },
      { head: "Cleared", share: 0.1, ...figure },
      { head: "Starter on", share: 0.1, ...figure },
      { head: "Starter s", share: 0.09, face: "bold", size: 8.5 },
      { head: "Caught", share: 0.1, ...figure },
      { head: "Oil first", share: 0.1, ...figure },
      { head: "Oil normal", share: 0.1, ...figure },
      { head: "Stable", share: 0.1, ...figure },
      { head: "End", share: 0.105, size: 7 },
    ],
    record.engines.flatMap(({ n, attempts }) =>
      attempts.length === 0
        ? [{ cells: [String(n), null, "not asked"], tone: "soft" as const }]
        : attempts.map((a, i) => attemptRow(n, i, a)),
    ),
  );
}

function attemptRow(n: number, i: number, a: Attempt): TableRow {
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
      a.wasCleared ? timeOfDay(a.cleared) : "NOT CLEARED",
      timeOfDay(a.crankedAt),
      a.starterS === null
        ? null
        : `${a.starterS.toFixed(1)}\nof ${a.starterMaxS ?? "?"}${past ? "\nPAST" : ""}`,
      timeOfDay(a.caught),
      after(a.oilFirst, a.oilFirstFigure),
      after(a.oilNormal, a.oilNormalFigure),
      timeOfDay(a.stable),
      a.ended ? `${a.ended.words}\n${timeOfDay(a.ended.at)}` : null,
    ],
    tone: past || !a.wasCleared ? "danger" : "ink",
  };
}
