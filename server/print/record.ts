import type { SessionRecord } from "../../shared/brief/record.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { drawExchange } from "./chart.ts";
import { printEngines } from "./recordEngines.ts";
import { printStops } from "./recordStops.ts";
import { Sheet } from "./sheet.ts";
import { type TableColumn, type TableRow, table } from "./table.ts";
import { dayAndTime, timeOfDay } from "./times.ts";
import { titleBlock } from "./titleBlock.ts";

/** The record as a PDF. The same record and `now` give the same bytes. */
export async function printRecord(record: SessionRecord, now: number): Promise<Buffer> {
  const sheet = new Sheet({
    title: `Start record ${record.aircraft}`,
    about: `${record.aircraft}, ${dayAndTime(record.plannedAt)} UTC`,
    now,
    caution: record.caution,
  });
  particulars(sheet, record);
  atAGlance(sheet, record);
  await printEngines(sheet, record);
  await printStops(sheet, record);
  await figures(sheet, record);
  await people(sheet, record);

  sheet.page();
  sheet.heading("The exchange");
  sheet.para(
    "One line for each post, time downward, UTC. A full arrow is a signal, a broken one an answer, a crossed one was refused.",
    { size: 8, tone: "soft" },
  );
  await drawExchange(
    sheet,
    record.exchange,
    SPOKEN[record.language],
    new Set(record.events.filter((e) => e.red).map((e) => e.seq)),
  );

  sheet.page();
  sheet.heading("Every event");
  await table(
    sheet,
    [NUMBER, TIME, { head: "Who", share: 0.2 }, { head: "What", share: 0.57 }, { head: "From", share: 0.06 }],
    record.events.map((e) => ({
      cells: [String(e.seq), timeOfDay(e.at), e.by, e.words, e.cause === null ? null : String(e.cause)],
      tone: e.red ? "danger" : "ink",
    })),
  );
  vouched(sheet, record);
  return sheet.finish();
}

const NUMBER: TableColumn = { head: "No.", share: 0.07 };
const TIME: TableColumn = { head: "Time", share: 0.12 };

function particulars(sheet: Sheet, record: SessionRecord): void {
  const { type } = record;
  titleBlock(sheet, [
    [
      { label: "Start record", value: record.aircraft, share: 0.4, size: 22, face: "monoBold" },
      { label: "Order of starting", value: record.order.join("-"), share: 0.6, size: 22, face: "monoBold" },
    ],
    [
      { label: "Place", value: record.place, share: 0.4 },
      { label: "Aircraft type", value: `${type.name}, version ${type.version}`, share: 0.6 },
    ],
    [
      { label: "Planned, UTC", value: dayAndTime(record.plannedAt), share: 0.3 },
      {
        label: "Ended, UTC",
        value: record.endedAt === null ? "STILL OPEN" : dayAndTime(record.endedAt),
        share: 0.3,
        tone: record.endedAt === null ? "warning" : "ink",
      },
      {
        label: "Type approved by",
        value: type.approvedBy ?? "NOT APPROVED",
        share: 0.4,
        tone: type.approvedBy ? "ink" : "danger",
      },
    ],
    POSTS.map((post) => ({
      label: SPOKEN[record.language].post(post),
      value: record.crew[post].join(", then ") || "nobody",
      share: 0.25,
    })),
    [
      {
        label: "Power",
        value: record.powerSource === "batteries" ? "Batteries" : "Ground power",
        share: 0.2,
      },
      { label: "Session", value: record.session, share: 0.6, face: "mono", size: 8 },
      { label: "Events", value: String(record.events.length), share: 0.2, face: "bold", size: 14 },
    ],
    [{ label: "Hash of the last event, SHA-256", value: record.headHash, share: 1, face: "mono", size: 9 }],
  ]);
}

/** What a reader must know before anything else; a clean start says so as plainly. */
function atAGlance(sheet: Sheet, record: SessionRecord): void {
  const counted: [number, string, string][] = [
    [record.overrides.length, "condition set aside", "conditions set aside"],
    [record.exceedances.length, "limit passed", "limits passed"],
    [record.stops.length, "hold, cut or fire", "holds, cuts and fires"],
    [record.refusals.length, "refusal", "refusals"],
    [record.defects.filter((d) => d.closed === null).length, "open defect", "open defects"],
  ];
  const said = counted.filter(([n]) => n > 0).map(([n, one, many]) => `${n} ${n === 1 ? one : many}`);
  const red = record.overrides.length + record.exceedances.length > 0;
  sheet.para(
    said.length === 0 ? "Nothing set aside, no limit passed, no stop, no refusal." : `${said.join(", ")}.`,
    { face: "bold", size: 11, tone: red ? "danger" : "ink" },
  );
}

async function figures(sheet: Sheet, record: SessionRecord): Promise<void> {
  const verdict = (good: boolean | null) => (good === null ? "no range" : good ? "in range" : "OUT OF RANGE");
  const red = (good: boolean | null): Pick<TableRow, "tone"> => ({ tone: good === false ? "danger" : "ink" });
  sheet.heading("Volts");
  await table(
    sheet,
    [
      NUMBER,
      TIME,
      { head: "Where", share: 0.27 },
      { head: "Read", share: 0.12, face: "bold", size: 10 },
      { head: "Range", share: 0.14 },
      { head: "Verdict", share: 0.12 },
      { head: "By", share: 0.16 },
    ],
    record.volts.map((v) => ({
      cells: [String(v.seq), timeOfDay(v.at), v.where, v.figure, v.range, verdict(v.good), v.by],
      ...red(v.good),
    })),
  );
  sheet.heading("Checks");
  await table(
    sheet,
    [
      NUMBER,
      TIME,
      { head: "Check", share: 0.31 },
      { head: "Read", share: 0.1, face: "bold", size: 10 },
      { head: "Range", share: 0.14 },
      { head: "Verdict", share: 0.1 },
      { head: "By", share: 0.16 },
    ],
    record.checks.map((c) => ({
      cells: [
        String(c.seq),
        timeOfDay(c.at),
        c.note === null ? c.words : `${c.words} (${c.note})`,
        c.figure,
        c.range,
        c.good ? "good" : "NOT GOOD",
        c.by,
      ],
      ...red(c.good),
    })),
  );
}

async function people(sheet: Sheet, record: SessionRecord): Promise<void> {
  const columns = [NUMBER, TIME, { head: "What", share: 0.51 }, { head: "By", share: 0.3 }];
  const list = (rows: SessionRecord["handOvers"]) =>
    rows.map((r) => ({ cells: [String(r.seq), timeOfDay(r.at), r.words, r.by] }));
  sheet.heading("Posts and hand-overs");
  await table(sheet, columns, list(record.handOvers));
  sheet.heading("Stages");
  await table(
    sheet,
    [TIME, { head: "Stage", share: 0.88 }],
    record.stages.map((s) => ({ cells: [timeOfDay(s.at), SPOKEN[record.language].stage(s.stage)] })),
  );
  sheet.heading("Interruptions of the server");
  await table(sheet, columns, list(record.interruptions));
}

/** The end: what the paper vouches for, and who signs for it. */
function vouched(sheet: Sheet, record: SessionRecord): void {
  sheet.need(150);
  sheet.heading("End of the record");
  sheet.para(`${record.events.length} events. Hash of the last, SHA-256:`);
  sheet.para(record.headHash, { face: "monoBold", size: 10.5 });
  sheet.para(
    "A file of this session that ends in the same hash is the record as it was when this was printed. Keep this sheet away from the server: only a hash kept elsewhere shows that nobody wrote the record anew.",
    { size: 8, tone: "soft" },
  );
  titleBlock(sheet, [
    ["Supervisor", "Cockpit"].map((label) => ({
      label: `${label}: name, signature, date`,
      value: " ",
      share: 0.5,
      size: 26,
    })),
  ]);
}
