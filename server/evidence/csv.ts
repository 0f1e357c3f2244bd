import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { StoredEvent } from "../store/events.ts";
import { PROGRAM } from "../version.ts";
import { cautionOf } from "./caution.ts";
import type { Pseudonyms } from "./names.ts";

const HEADER = [
  "seq",
  "time",
  "who",
  "post",
  "device",
  "what",
  "kind",
  "engine",
  "about",
  "answer",
  "channel",
  "seenFrom",
  "value",
  "unit",
  "note",
  "fact",
  "command",
  "cause",
  "hash",
] as const;

/** Returns the first two rows: the caution and the program, padded to the table's width (RFC 4180 rule 4), then the column names. */
export function csvHead(aircraft: string): string {
  const caution = [cautionOf(aircraft), PROGRAM, ...HEADER.slice(2).map(() => "")];
  return record(caution) + record(HEADER);
}

/** Returns the last row: the signature of every byte before it, padded to the table's width. */
export function signedRow(endLine: string): string {
  return record([endLine, ...HEADER.slice(1).map(() => "")]);
}

/** Returns one event as one row, for a spreadsheet. The exact bytes are in the NDJSON format. */
export function csvLine(stored: StoredEvent, names: Pseudonyms): string {
  const event = readSealed(names.reveal(stored.body)).event;
  const { actor, fact } = event;
  const has = fact as Partial<Record<string, unknown>>;
  const figure = has.reading ?? has.volts ?? has.pressure;
  const { value, unit } = (figure ?? {}) as { value?: number; unit?: string };
  const person = actor.kind === "person" ? actor : null;
  return record([
    event.seq,
    new Date(event.at).toISOString(),
    person?.name ?? "system",
    person ? (person.post ?? "observer") : "",
    person?.device ?? "",
    fact.type,
    has.kind,
    has.engine,
    has.ref ?? has.signal ?? has.alert ?? has.clearance,
    has.answer,
    has.channel,
    has.seenFrom,
    value,
    unit,
    has.note ?? has.reason,
    rest(event),
    event.command,
    event.cause,
    stored.hash,
  ]);
}

/** Returns the whole fact as JSON, but the plan's aircraft type as id and version only. */
function rest({ fact }: SessionEvent): string {
  if (fact.type !== "planned") return JSON.stringify(fact);
  const { aircraftType, ...plan } = fact;
  return JSON.stringify({ ...plan, aircraftType: `${aircraftType.id} ${aircraftType.version}` });
}

function record(cells: readonly unknown[]): string {
  return `${cells.map(cell).join(",")}\r\n`;
}

/** First characters by which a spreadsheet recognises a formula (OWASP, CSV injection). */
const FORMULA = /^[=+\-@\t\r]/;

/** Returns one cell (RFC 4180). A leading apostrophe marks text that a spreadsheet would run as a formula. */
export function cell(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (typeof value === "number") return String(value);
  const text = FORMULA.test(String(value)) ? `'${value}` : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
