import type { SessionRecord } from "../../shared/brief/record.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { Sheet } from "./sheet.ts";
import { type TableColumn, table } from "./table.ts";
import { timeOfDay } from "./times.ts";

const NUMBER: TableColumn = { head: "No.", share: 0.07 };
const TIME: TableColumn = { head: "Time", share: 0.12 };
const LIST = [NUMBER, TIME, { head: "What", share: 0.51 }, { head: "By", share: 0.3 }];

/** Everything that was not a plain start: set aside, passed, stopped, alerted, drilled, refused, found wrong. */
export async function printStops(sheet: Sheet, record: SessionRecord): Promise<void> {
  const say = SPOKEN[record.language];
  const some = <T>(list: readonly T[]) => (list.length > 0 ? "danger" : "ink");
  sheet.heading("Conditions set aside", some(record.overrides));
  await table(
    sheet,
    [
      NUMBER,
      { head: "Condition", share: 0.2, face: "bold" },
      { head: "First person", share: 0.29 },
      { head: "Second person", share: 0.29 },
      { head: "End", share: 0.15 },
    ],
    record.overrides.map((o) => ({
      cells: [
        String(o.id),
        `SET ASIDE: ${o.condition}, number ${o.engine}`,
        said(o.first),
        o.second ? said(o.second) : "nobody agreed",
        o.ended ?? "still stands",
      ],
      tone: "danger",
    })),
    "No condition was set aside.",
  );
  sheet.heading("Limits passed", some(record.exceedances));
  await table(
    sheet,
    LIST,
    record.exceedances.map((e) => ({
      cells: [String(e.seq), timeOfDay(e.at), e.words, e.by],
      tone: "danger",
    })),
    "No limit was passed.",
  );
  sheet.heading("Holds, cuts and fires");
  await table(
    sheet,
    [
      NUMBER,
      TIME,
      { head: "What", share: 0.31 },
      { head: "Raised by", share: 0.2 },
      { head: "How it ended", share: 0.3 },
    ],
    record.stops.map((s) => ({
      cells: [
        String(s.id),
        timeOfDay(s.at),
        s.words,
        s.by,
        [
          ...s.meanwhile.map((m) => `${m.words}: ${m.by}, ${timeOfDay(m.at)} (${m.seq}).`),
          s.ended ? `Ended by ${s.ended.by}, ${timeOfDay(s.ended.at)} (${s.ended.seq}).` : "STILL STANDS.",
        ].join(" "),
      ],
      tone: s.is === "hold" ? "ink" : "danger",
    })),
    "Nobody stopped anything.",
  );
  sheet.heading("Alerts");
  await table(
    sheet,
    [
      NUMBER,
      TIME,
      { head: "Alert", share: 0.27 },
      { head: "To", share: 0.18 },
      { head: "Acknowledged", share: 0.24 },
      { head: "Gone", share: 0.12 },
    ],
    record.alerts.map((a) => ({
      cells: [
        String(a.id),
        timeOfDay(a.at),
        a.again > 0 ? `${a.words} Sounded again: ${a.again}.` : a.words,
        a.to.map(say.post).join(", "),
        [
          ...a.acknowledged.map((k) => `${k.name}, ${say.post(k.post).toLowerCase()}, ${timeOfDay(k.at)}.`),
          ...a.shelved.map(
            (s) =>
              `Put aside by ${say.post(s.post).toLowerCase()}, ${timeOfDay(s.at)} to ${timeOfDay(s.until)}.`,
          ),
        ].join(" ") || "by nobody",
        timeOfDay(a.endedAt) ?? "still there",
      ],
    })),
    "No alert was raised.",
  );
  sheet.heading("Drills");
  await table(
    sheet,
    [
      TIME,
      { head: "Drill", share: 0.18, face: "bold" },
      { head: "Post", share: 0.14 },
      { head: "Step", share: 0.32 },
      { head: "Marked", share: 0.24 },
    ],
    record.drills.flatMap((d) => [
      {
        cells: [
          timeOfDay(d.at),
          d.engine === null ? d.title : `${d.title}, number ${d.engine}`,
          null,
          d.ended ? `Ended: ${d.ended.outcome}` : "STILL OPEN",
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
            ? `${s.marked.done ? "done" : "does not apply"}, ${s.marked.by}, ${timeOfDay(s.marked.at)}${s.marked.note === null ? "" : ` (${s.marked.note})`}`
            : "not marked",
        ],
      })),
    ]),
    "No drill was worked.",
  );
  sheet.heading("Refusals");
  await table(sheet, LIST, record.refusals.map(row), "Nothing was refused.");
  sheet.heading("Clearances and requests that died");
  await table(sheet, LIST, record.voided.map(row), "Every request and clearance was used or stands.");
  sheet.heading("Defects");
  await table(
    sheet,
    [
      TIME,
      { head: "Defect", share: 0.44 },
      { head: "Found by", share: 0.2 },
      { head: "Closed", share: 0.24 },
    ],
    record.defects.map((d) => ({
      cells: [
        timeOfDay(d.at),
        `${d.engine === null ? "" : `Number ${d.engine}: `}${d.words}${d.barsStart ? " BARS THE START." : ""}`,
        d.brought ? `${d.by}, before this session` : d.by,
        d.closed ? `${d.closed.reason}: ${d.closed.by}, ${timeOfDay(d.closed.at)}` : "open",
      ],
      tone: d.barsStart && d.closed === null ? "danger" : "ink",
    })),
    "No defect is known.",
  );
}

const said = (w: { at: number; by: string; reason: string }) => `${w.by}, ${timeOfDay(w.at)}: ${w.reason}`;
const row = (r: { seq: number; at: number; words: string; by: string }) => ({
  cells: [String(r.seq), timeOfDay(r.at), r.words, r.by],
});
