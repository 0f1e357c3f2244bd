import type { Due } from "../../shared/dues/dues.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import type { Brief } from "../../shared/paper/brief.ts";
import type { Card } from "../../shared/paper/card.ts";
import { recordOf } from "../../shared/paper/record.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Comparison } from "../../shared/rehearsal/measures.ts";
import { namedFor } from "../../shared/words/erased.ts";
import type { Language } from "../../shared/words/language.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { printBrief } from "./brief.ts";
import { printCard } from "./card.ts";
import { printDues } from "./dues.ts";
import { printRecord } from "./record.ts";
import type { RecordForm } from "./recordForm.ts";

/** The first line of a job, as JSON. `now` is the time of printing, server milliseconds. */
export type JobHead =
  | { sheet: "brief"; now: number; brief: Brief }
  | { sheet: "card"; now: number; card: Card }
  | { sheet: "dues"; now: number; dues: readonly Due[]; language: Language }
  /** The lines after it are the record's sealed bodies with the names in them, in order. */
  | {
      sheet: "record";
      now: number;
      headHash: string;
      language: Language;
      form: RecordForm;
      compared: Comparison | null;
    };

/** Returns the PDF of a job. */
export async function printJob(lines: AsyncIterable<string>): Promise<Buffer> {
  let head: JobHead | null = null;
  const events: SessionEvent[] = [];
  for await (const line of lines) {
    if (head === null) head = JSON.parse(line) as JobHead;
    else events.push(readSealed(line).event);
  }
  if (head === null) throw new Error("a job has a head");
  switch (head.sheet) {
    case "brief":
      return printBrief(head.brief, head.now);
    case "card":
      return printCard(head.card, head.now);
    case "dues":
      return printDues(head.dues, head.language, head.now);
    case "record": {
      const say = SPOKEN[head.language];
      const record = recordOf(namedFor(events, say), head.headHash, say, head.compared);
      return printRecord(record, head.now, head.form);
    }
  }
}
