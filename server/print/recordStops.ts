import type { SessionRecord } from "../../shared/paper/record.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { RecordForm } from "./recordForm.ts";
import type { Sheet } from "./sheet.ts";
import { numberOf, type TableColumn, type TableRow, table, timeOf } from "./table.ts";
import { timeOfDay } from "./times.ts";
import type { PrintWords } from "./words/en.ts";
import { printWords } from "./words.ts";

/**
 * Prints everything beyond a normal start: overrides, passed limits, stops, alerts, drills, refusals, voided
 * clearances and defects.
 */
export async function printStops(sheet: Sheet, record: SessionRecord, form: RecordForm): Promise<void> {
  /** Writes one part; the short form leaves out a part without rows. */
  const part = async (
    title: string,
    columns: readonly TableColumn[],
    rows: readonly TableRow[],
    empty: string,
    tone: "danger" | "ink" = "ink",
  ) => {
    if (form === "short" && rows.length === 0) return;
    sheet.heading(title, tone);
    await table(sheet, columns, rows, empty);
  };
  const say = SPOKEN[record.language];
  const all = printWords(record.language);
  const words = all.stops;
  const NUMBER = numberOf(all);
  const TIME = timeOf(all);
  const LIST = [NUMBER, TIME, { head: all.what, share: 0.51 }, { head: all.by, share: 0.3 }];
  const some = <T>(list: readonly T[]) => (list.length > 0 ? "danger" : "ink");
  await part(
    words.overrides,
    [
      NUMBER,
      { head: words.condition, share: 0.2, face: "bold" },
      { head: words.first, share: 0.29 },
      { head: words.second, share: 0.29 },
      { head: words.end, share: 0.15 },
    ],
    record.overrides.map((o) => ({
      cells: [
        String(o.id),
        words.aside(o.condition, o.engine),
        said(o.first),
        o.second ? said(o.second) : words.nobodyAgreed,
        o.ended ?? words.stands,
      ],
      tone: "danger",
    })),
    words.noOverride,
    some(record.overrides),
  );
  await part(
    words.limits,
    LIST,
    record.exceedances.map((e) => ({
      cells: [String(e.seq), timeOfDay(e.at), e.words, e.by],
      tone: "danger",
    })),
    words.noLimit,
    some(record.exceedances),
  );
  await part(
    words.stops,
    [
      NUMBER,
      TIME,
      { head: all.what, share: 0.31 },
      { head: words.raised, share: 0.2 },
      { head: words.how, share: 0.3 },
    ],
    record.stops.map((s) => ({
      cells: [
        String(s.id),
        timeOfDay(s.at),
        s.words,
        s.by,
        [
          ...s.meanwhile.map((m) => `${m.words}: ${m.by}, ${timeOfDay(m.at)} (${m.seq}).`),
          s.ended ? words.ended(s.ended.by, timeOfDay(s.ended.at) ?? "", s.ended.seq) : words.stillStands,
        ].join(" "),
      ],
      tone: s.is === "hold" ? "ink" : "danger",
    })),
    words.noStop,
  );
  await part(
    words.alerts,
    [
      NUMBER,
      TIME,
      { head: words.alert, share: 0.27 },
      { head: words.to, share: 0.18 },
      { head: words.acknowledged, share: 0.24 },
      { head: words.gone, share: 0.12 },
    ],
    record.alerts.map((a) => ({
      cells: [
        String(a.id),
        timeOfDay(a.at),
        a.again > 0 ? words.again(a.words, a.again) : a.words,
        a.to.map(say.post).join(", "),
        [
          ...a.acknowledged.map((k) => `${k.name}, ${say.post(k.post).toLowerCase()}, ${timeOfDay(k.at)}.`),
          ...a.shelved.map((s) =>
            words.shelved(say.post(s.post).toLowerCase(), timeOfDay(s.at) ?? "", timeOfDay(s.until) ?? ""),
          ),
        ].join(" ") || words.byNobody,
        timeOfDay(a.endedAt) ?? words.stillThere,
      ],
    })),
    words.noAlert,
  );
  await part(
    words.drills,
    [
      TIME,
      { head: words.drill, share: 0.18, face: "bold" },
      { head: all.post, share: 0.14 },
      { head: words.step, share: 0.32 },
      { head: words.marked, share: 0.24 },
    ],
    record.drills.flatMap((d) => [
      {
        cells: [
          timeOfDay(d.at),
          d.engine === null ? d.title : words.drillAt(d.title, d.engine),
          null,
          d.ended ? words.drillEnded(d.ended.outcome) : words.stillOpen,
          d.ended ? `${d.ended.by}, ${timeOfDay(d.ended.at)}` : null,
        ],
      },
      ...d.steps.map((s) => ({
        cells: [
          null,
          null,
          say.post(s.post),
          s.words,
          s.marked
            ? `${s.marked.done ? words.done : words.left}, ${s.marked.by}, ${timeOfDay(s.marked.at)}${s.marked.note === null ? "" : ` (${s.marked.note})`}`
            : words.notMarked,
        ],
      })),
    ]),
    words.noDrill,
  );
  await part(words.refusals, LIST, record.refusals.map(row), words.noRefusal);
  await part(words.died, LIST, record.voided.map(row), words.noneDied);
  await part(
    words.defects,
    [
      TIME,
      { head: words.defect, share: 0.44 },
      { head: words.found, share: 0.2 },
      { head: words.closed, share: 0.24 },
    ],
    record.defects.map((d) => ({
      cells: [timeOfDay(d.at), barred(d, words), d.brought ? words.before(d.by) : d.by, end(d, words)],
      tone: d.barsStart && d.closed === null ? "danger" : "ink",
    })),
    words.noDefect,
  );
}

const said = (w: { at: number; by: string; reason: string }) => `${w.by}, ${timeOfDay(w.at)}: ${w.reason}`;
const row = (r: { seq: number; at: number; words: string; by: string }) => ({
  cells: [String(r.seq), timeOfDay(r.at), r.words, r.by],
});

function end({ closed, mended }: SessionRecord["defects"][number], words: PrintWords["stops"]): string {
  const done = closed ?? mended;
  if (done === null) return words.open;
  const told = `${done.reason}: ${done.by}, ${timeOfDay(done.at)}`;
  return closed === null ? words.toInspect(told) : told;
}

function barred(d: SessionRecord["defects"][number], words: PrintWords["stops"]): string {
  const said = d.engine === null ? d.words : words.defectAt(d.engine, d.words);
  return d.barsStart ? words.bars(said) : said;
}
