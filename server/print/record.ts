import type { SessionRecord } from "../../shared/paper/record.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { isRehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { dayAndTime } from "../../shared/words/dates.ts";
import { debriefWords } from "../../shared/words/debrief.ts";
import { pluralsOf } from "../../shared/words/plural.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { drawExchange } from "./chart.ts";
import { printEngines } from "./recordEngines.ts";
import type { RecordForm } from "./recordForm.ts";
import { printMeasured } from "./recordMeasured.ts";
import { printReturn } from "./recordReturn.ts";
import { printStops } from "./recordStops.ts";
import { Sheet } from "./sheet.ts";
import { numberOf, type TableRow, table, timeOf } from "./table.ts";
import { timeOfDay } from "./times.ts";
import { titleBlock } from "./titleBlock.ts";
import { printWords } from "./words.ts";

/** Returns the record as a PDF. The same record, form and `now` give the same bytes. */
export async function printRecord(record: SessionRecord, now: number, form: RecordForm): Promise<Buffer> {
  const all = printWords(record.language);
  const words = all.record;
  const sheet = new Sheet({
    title: (record.returned ? all.returned : words).title(record.aircraft),
    about: `${record.aircraft}, ${dayAndTime(record.plannedAt, record.language)} UTC`,
    now,
    caution: record.caution,
    language: record.language,
    rehearsal: isRehearsedAircraft(record.aircraft),
  });
  particulars(sheet, record);
  atAGlance(sheet, record);
  if (record.debrief) await whatTheyDid(sheet, record.debrief, record.language);
  if (record.returned) await printReturn(sheet, record.returned);
  await printEngines(sheet, record);
  await printMeasured(sheet, record);
  await printStops(sheet, record, form);
  if (form === "short") {
    await outOfRange(sheet, record);
    sheet.para(words.shortForm(record.events.length), { size: 8, tone: "soft" });
    closing(sheet, record);
    return sheet.finish();
  }
  await figures(sheet, record);
  if (record.equipment.length > 0) {
    sheet.heading(printWords(record.language).equipment);
    sheet.list(record.equipment);
  }
  await people(sheet, record);

  sheet.page();
  sheet.heading(words.exchange);
  sheet.para(words.chart, { size: 8, tone: "soft" });
  await drawExchange(
    sheet,
    record.exchange,
    SPOKEN[record.language],
    new Set(record.events.filter((e) => e.red).map((e) => e.seq)),
  );

  sheet.page();
  sheet.heading(words.every);
  await table(
    sheet,
    [
      numberOf(all),
      timeOf(all),
      { head: words.who, share: 0.2 },
      { head: all.what, share: 0.57 },
      { head: words.from, share: 0.06 },
    ],
    record.events.map((e) => ({
      cells: [String(e.seq), timeOfDay(e.at), e.by, e.words, e.cause === null ? null : String(e.cause)],
      tone: e.red ? "danger" : "ink",
    })),
  );
  closing(sheet, record);
  return sheet.finish();
}

function particulars(sheet: Sheet, record: SessionRecord): void {
  const all = printWords(record.language);
  const words = all.record;
  const { type } = record;
  titleBlock(sheet, [
    [
      {
        label: (record.returned ? all.returned : words).label,
        value: record.aircraft,
        share: 0.4,
        size: 22,
        face: "monoBold",
      },
      {
        label: (record.returned ? all.returned : all).order,
        value: record.order.join("-"),
        share: 0.6,
        size: 22,
        face: "monoBold",
      },
    ],
    [
      { label: all.place, value: record.place, share: 0.4 },
      { label: all.type, value: all.version(type.name, type.version), share: 0.6 },
    ],
    [
      { label: words.planned, value: dayAndTime(record.plannedAt, record.language), share: 0.3 },
      {
        label: words.ended,
        value: record.endedAt === null ? words.open : dayAndTime(record.endedAt, record.language),
        share: 0.3,
        tone: record.endedAt === null ? "warning" : "ink",
      },
      {
        label: all.approvedBy,
        value: type.approvedBy ?? all.notApproved,
        share: 0.4,
        tone: type.approvedBy ? "ink" : "danger",
      },
    ],
    POSTS.map((post) => ({
      label: SPOKEN[record.language].post(post),
      value: record.crew[post].join(words.after) || words.nobody,
      share: 0.25,
    })),
    [
      {
        label: words.power,
        value: record.powerSource === "batteries" ? words.batteries : words.groundPower,
        share: 0.2,
      },
      { label: all.session, value: record.session, share: 0.6, face: "mono", size: 8 },
      { label: words.events, value: String(record.events.length), share: 0.2, face: "bold", size: 14 },
    ],
    [{ label: words.hash, value: record.headHash, share: 1, face: "mono", size: 9 }],
  ]);
}

/** Prints the counts a reader must see first, or that there was nothing to count. */
function atAGlance(sheet: Sheet, record: SessionRecord): void {
  const words = printWords(record.language).record;
  const { counts } = words;
  const plural = pluralsOf(record.language);
  const cutShort = record.returned?.engines.filter((e) => e.short !== null).length ?? 0;
  const counted: [number, { one: string; other: string }][] = [
    [record.overrides.length, counts.aside],
    [record.exceedances.length, counts.limits],
    [cutShort, counts.coolDowns],
    [record.stops.length, counts.stops],
    [record.refusals.length, counts.refusals],
    [record.defects.filter((d) => d.closed === null).length, counts.defects],
  ];
  const said = counted.filter(([n]) => n > 0).map(([n, forms]) => `${n} ${plural(n, forms)}`);
  const red = record.overrides.length + record.exceedances.length + cutShort > 0;
  sheet.para(said.length === 0 ? words.clean : `${said.join(", ")}.`, {
    face: "bold",
    size: 11,
    tone: red ? "danger" : "ink",
  });
}

/** Prints what the crew of a rehearsal did. */
async function whatTheyDid(
  sheet: Sheet,
  { lead, lines, notCompared, compared }: NonNullable<SessionRecord["debrief"]>,
  language: SessionRecord["language"],
): Promise<void> {
  const all = printWords(language);
  const words = debriefWords(language);
  sheet.heading(words.title);
  for (const said of lead) sheet.para(said, { size: 8, tone: "soft" });
  if (lines.length === 0) sheet.para(words.none);
  else
    await table(
      sheet,
      [numberOf(all), timeOf(all), { head: all.what, share: 0.81 }],
      lines.map(({ seq, at, words: said, good }) => ({
        cells: [String(seq), timeOfDay(at), said],
        tone: good ? "ink" : "danger",
      })),
    );
  if (notCompared === null && compared.length === 0) return;
  sheet.heading(words.compared);
  if (notCompared !== null) return sheet.para(notCompared);
  sheet.para(words.comparedLead, { size: 8, tone: "soft" });
  for (const { title, none, heads, rows } of compared) {
    sheet.para(title, { face: "bold" });
    if (none !== null) {
      sheet.para(none);
      continue;
    }
    const share = 0.55 / heads.length;
    await table(
      sheet,
      [{ head: words.measure, share: 0.45 }, ...heads.map((head) => ({ head, share }))],
      rows.map(({ measure, cells }) => ({ cells: [measure, ...cells] })),
    );
  }
}

/** Prints of the volts and checks only what was not good, and nothing when all was. */
async function outOfRange(sheet: Sheet, record: SessionRecord): Promise<void> {
  const volts = record.volts.filter((v) => v.good === false);
  const checks = record.checks.filter((c) => !c.good);
  await figures(sheet, { ...record, volts, checks }, true);
}

/** @param skipEmpty true to leave out a heading without rows */
async function figures(sheet: Sheet, record: SessionRecord, skipEmpty = false): Promise<void> {
  const all = printWords(record.language);
  const words = all.record;
  const NUMBER = numberOf(all);
  const TIME = timeOf(all);
  const verdict = (good: boolean | null) =>
    good === null ? words.noRange : good ? words.inRange : words.outOfRange;
  const red = (good: boolean | null): Pick<TableRow, "tone"> => ({ tone: good === false ? "danger" : "ink" });
  if (!skipEmpty || record.volts.length > 0) {
    sheet.heading(words.volts);
    await table(
      sheet,
      [
        NUMBER,
        TIME,
        { head: words.where, share: 0.27 },
        { head: words.read, share: 0.12, face: "bold", size: 10 },
        { head: words.range, share: 0.14 },
        { head: words.verdict, share: 0.12 },
        { head: all.by, share: 0.16 },
      ],
      record.volts.map((v) => ({
        cells: [String(v.seq), timeOfDay(v.at), v.where, v.figure, v.range, verdict(v.good), v.by],
        ...red(v.good),
      })),
    );
  }
  if (!skipEmpty || record.checks.length > 0) {
    sheet.heading(words.checks);
    await table(
      sheet,
      [
        NUMBER,
        TIME,
        { head: words.check, share: 0.31 },
        { head: words.read, share: 0.1, face: "bold", size: 10 },
        { head: words.range, share: 0.14 },
        { head: words.verdict, share: 0.1 },
        { head: all.by, share: 0.16 },
      ],
      record.checks.map((c) => ({
        cells: [
          String(c.seq),
          timeOfDay(c.at),
          c.note === null ? c.words : `${c.words} (${c.note})`,
          c.figure,
          c.range,
          c.good ? words.good : words.notGood,
          c.by,
        ],
        ...red(c.good),
      })),
    );
  }
}

async function people(sheet: Sheet, record: SessionRecord): Promise<void> {
  const all = printWords(record.language);
  const words = all.record;
  const TIME = timeOf(all);
  const columns = [numberOf(all), TIME, { head: all.what, share: 0.51 }, { head: all.by, share: 0.3 }];
  const list = (rows: SessionRecord["handOvers"]) =>
    rows.map((r) => ({ cells: [String(r.seq), timeOfDay(r.at), r.words, r.by] }));
  sheet.heading(words.posts);
  await table(sheet, columns, list(record.handOvers));
  sheet.heading(words.stages);
  await table(
    sheet,
    [TIME, { head: all.stage, share: 0.88 }],
    record.stages.map((s) => ({ cells: [timeOfDay(s.at), SPOKEN[record.language].stage(s.stage)] })),
  );
  sheet.heading(words.interruptions);
  await table(sheet, columns, list(record.interruptions));
}

/** Prints the last part: the hash this paper can be checked against, and the signatures. */
function closing(sheet: Sheet, record: SessionRecord): void {
  const words = printWords(record.language).record;
  const say = SPOKEN[record.language];
  sheet.need(150);
  sheet.heading(words.end);
  sheet.para(words.lastHash(record.events.length));
  sheet.para(record.headHash, { face: "monoBold", size: 10.5 });
  sheet.para(words.vouches, { size: 8, tone: "soft" });
  titleBlock(sheet, [
    (["supervisor", "cockpit"] as const).map((post) => ({
      label: words.signs(say.post(post)),
      value: " ",
      share: 0.5,
      size: 26,
    })),
  ]);
}
