import { MEASURED_FIGURES } from "../../shared/history/row.ts";
import type { SessionRecord } from "../../shared/paper/record.ts";
import { measuredWords } from "../../shared/words/measured.ts";
import type { Sheet } from "./sheet.ts";
import { table } from "./table.ts";

/** Prints what instruments measured of each start, beside what people said; nothing where none did. */
export async function printMeasured(sheet: Sheet, { measured, language }: SessionRecord): Promise<void> {
  if (measured.length === 0) return;
  const words = measuredWords(language);
  sheet.heading(words.title);
  sheet.para(words.lead, { size: 8, tone: "soft" });
  await table(
    sheet,
    [
      { head: words.engine, share: 0.1, face: "bold", size: 17 },
      { head: words.attempt, share: 0.09 },
      ...MEASURED_FIGURES.map((f) => ({ head: words.figures[f], share: 0.27 })),
    ],
    measured.map(({ n, attempt, cells }) => ({
      cells: [
        String(n),
        String(attempt),
        ...MEASURED_FIGURES.map((f) => {
          const { said, measured: found, verdict } = cells[f];
          const lines = [`${words.said} ${said ?? "–"}`, `${words.measured} ${found ?? "–"}`];
          return [...lines, ...(verdict === null ? [] : [verdict])].join("\n");
        }),
      ],
      tone: MEASURED_FIGURES.some((f) => cells[f].differs) ? ("danger" as const) : ("ink" as const),
    })),
  );
}
