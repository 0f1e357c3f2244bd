import type { LogRow } from "../../shared/paper/logRow.ts";
import type { ReturnLog, StoppedEngine } from "../../shared/paper/returnLog.ts";
import type { Sheet } from "./sheet.ts";
import { numberOf, type TableRow, table, timeOf } from "./table.ts";
import { timeOfDay } from "./times.ts";
import type { PrintWords } from "./words/en.ts";
import { printWords } from "./words.ts";

/** Prints a return from the arrival to the stowing: how it was held, and how each engine was cooled and stopped. */
export async function printReturn(sheet: Sheet, log: ReturnLog): Promise<void> {
  const all = printWords(sheet.language);
  const words = all.returned;
  sheet.heading(words.arrival);
  await said(sheet, log.arrival);
  sheet.heading(words.engines);
  await table(
    sheet,
    [
      { head: all.engine, share: 0.08, face: "bold", size: 17 },
      { head: words.stopped, share: 0.17 },
      { head: words.idled, share: 0.1, face: "bold", size: 10 },
      { head: words.figures, share: 0.24 },
      { head: words.coolDown, share: 0.24 },
      { head: words.still, share: 0.17 },
    ],
    log.engines.map((e) => engineRow(e, words)),
  );
  if (log.dilution !== null) {
    sheet.heading(words.dilution);
    await said(sheet, log.dilution);
  }
  sheet.heading(words.after);
  await said(sheet, log.after);
  sheet.heading(words.stowing);
  await table(
    sheet,
    [
      numberOf(all),
      timeOf(all),
      { head: all.record.check, share: 0.51 },
      { head: all.record.verdict, share: 0.12 },
      { head: all.by, share: 0.18 },
    ],
    log.stowing.map((c) => ({
      cells: [
        String(c.seq),
        timeOfDay(c.at),
        [c.words, c.figure, c.note === null ? null : `(${c.note})`].filter((t) => t !== null).join(" "),
        c.good ? all.record.good : all.record.notGood,
        c.by,
      ],
      tone: c.good ? "ink" : "danger",
    })),
  );
}

async function said(sheet: Sheet, rows: readonly LogRow[]): Promise<void> {
  const all = printWords(sheet.language);
  const columns = [numberOf(all), timeOf(all), { head: all.what, share: 0.51 }, { head: all.by, share: 0.3 }];
  await table(
    sheet,
    columns,
    rows.map((r) => ({ cells: [String(r.seq), timeOfDay(r.at), r.words, r.by] })),
  );
}

function engineRow(e: StoppedEngine, words: PrintWords["returned"]): TableRow {
  const done = (what: { at: number; by: string } | null) => what && `${timeOfDay(what.at)}\n${what.by}`;
  const cooled = e.stopped === null ? null : words.cooled;
  const short = e.short && [
    e.short.words,
    e.short.reason === null ? words.noReason : words.reason(e.short.reason),
  ];
  const notSeen = e.stopped === null && e.cameTurning ? words.turns : words.notSeen;
  return {
    cells: [
      String(e.n),
      done(e.stopped) ?? (e.cameTurning ? words.notStopped : words.cameStopped),
      e.idledS === null ? null : `${e.idledS} s`,
      e.figures.join("\n"),
      short ? short.join("\n") : cooled,
      done(e.still) ?? notSeen,
    ],
    tone: e.short || e.still === null ? "danger" : "ink",
  };
}
