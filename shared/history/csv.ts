import { writeCsv } from "../house/lists/csv.ts";
import { POSTS } from "../protocol/posts.ts";
import { definitionOf, HISTORY_FIGURE_IDS } from "./figures.ts";
import type { StartRow } from "./row.ts";

/** One column: its name, its unit and its source, which are the file's first three lines, and its cell of a start. */
interface Column {
  name: string;
  unit: string;
  source: string;
  cell(row: StartRow): string;
}

const plain = (name: string, source: string, cell: Column["cell"], unit = ""): Column => ({
  name,
  unit,
  source,
  cell,
});
const text = (value: string | number | boolean | null) => (value === null ? "" : String(value));

const COLUMNS: readonly Column[] = [
  plain(
    "engaged",
    "server's clock as the engagement was recorded",
    (r) => new Date(r.at).toISOString(),
    "UTC",
  ),
  plain("aircraft", "plan of the start", (r) => r.aircraft),
  plain("engine", "place at the aircraft then", (r) => text(r.n)),
  plain("serial", "register at the plan", (r) => text(r.serial)),
  plain("hours", "register at the plan", (r) => text(r.hours), "h"),
  plain("starter", "register at the plan", (r) => text(r.starter)),
  plain("session", "record", (r) => r.session),
  plain("event", "record", (r) => text(r.seq)),
  plain("attempt", "record, in this session", (r) => text(r.attempt)),
  plain("cleared", "record", (r) => text(r.cleared)),
  plain("reached", "record", (r) => r.reached),
  plain("ended", "record", (r) => text(r.ended)),
  plain("power", "plan of the start", (r) => r.power),
  plain("resistance", "felt when the blades were counted", (r) => text(r.resistance)),
  ...HISTORY_FIGURE_IDS.flatMap((id): Column[] => {
    const { unit, source } = definitionOf(id);
    const value = plain(id, source, (r) => text(r.figures[id]?.value ?? null), unit ?? "in the next column");
    return unit === null ? [value, plain(`${id}Unit`, "as read", (r) => r.figures[id]?.unit ?? "")] : [value];
  }),
  plain("exceeded", "limits of the type that were passed: limit, allowed, found", (r) =>
    r.exceeded.map((e) => `${e.limit} ${e.allowed} ${e.found}`).join("; "),
  ),
  plain("differs", "what people said beyond the type's tolerance of what was measured", (r) =>
    r.differs.map((d) => `${d.figure} ${d.said} ${d.measured}`).join("; "),
  ),
  ...POSTS.map((post) => plain(post, "who held the post at the engagement", (r) => text(r.crew[post]))),
  plain("equipment", "labels of the start", (r) => r.equipment.join("; ")),
  plain("alerts", "kinds, in order of time", (r) => r.alerts.map((a) => a.kind).join("; ")),
  plain("refusals", "reasons, in order of time", (r) => r.refusals.map((x) => x.reason).join("; ")),
  plain("touches", "touches that said that a person is there", (r) => text(r.touches), "count"),
  plain("stops", "holds, cuts and fires: who, why", (r) =>
    r.stops.map((s) => [s.is, s.by, ...(s.reason === null ? [] : [s.reason])].join(", ")).join("; "),
  ),
];

/** Returns the starts as CSV (RFC 4180): a line of names, one of units and one of sources, then a line for each start. */
export function historyCsv(rows: readonly StartRow[]): string {
  const heads = (["name", "unit", "source"] as const).map((of) => COLUMNS.map((c) => c[of]));
  return writeCsv([...heads, ...rows.map((row) => COLUMNS.map((c) => c.cell(row)))]);
}
