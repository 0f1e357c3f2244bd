import { z } from "zod";
import { engineSchema } from "../../shared/protocol/commands.ts";
import { line } from "../../shared/protocol/text.ts";
import type { Sample } from "../../shared/readings/judgeSample.ts";

/** Samples in one request. */
export const MOST_SAMPLES = 5_000;

/** Characters of one line: the longest sample has about 150. */
const LINE = 400;
/** From 2000 to 2100: a clock that shows another year is not set. */
const TIME = { from: 946_684_800_000, to: 4_102_444_800_000 };

/** The form of a sample. */
export const sampleSchema = z.strictObject({
  channel: line(40),
  engine: engineSchema.nullish().transform((n) => n ?? null),
  time: z
    .union([z.number().int(), z.iso.datetime({ offset: true }).transform((text) => Date.parse(text))])
    .pipe(z.number().min(TIME.from).max(TIME.to)),
  value: z.number().finite(),
  unit: z.string().min(1).max(20),
});

/** One line of a body: a sample, or null when it is none. */
export interface SampleLine {
  /** From 1. */
  line: number;
  sample: Sample | null;
}

export type SampleForm = "ndjson" | "csv";

const COLUMNS = ["channel", "engine", "time", "value", "unit"] as const;

/** Returns the lines of a body; null when there are too many, or a CSV file has other columns. */
export function samplesIn(text: string, form: SampleForm): SampleLine[] | null {
  const lines = text.split(/\r?\n/);
  if (lines.length > MOST_SAMPLES + 2) return null;
  if (form === "csv" && lines[0] !== COLUMNS.join(",")) return null;
  const read = form === "csv" ? fromCsv : fromJson;
  const found: SampleLine[] = [];
  for (let i = form === "csv" ? 1 : 0; i < lines.length; i += 1) {
    const content = lines[i] ?? "";
    if (content === "") continue;
    found.push({ line: i + 1, sample: content.length > LINE ? null : sampleOf(read(content)) });
  }
  return found;
}

/** Names of channels that the schema has taken as they are. When there are more, all are judged anew. */
const names = new Set<string>();
const NAMES = 2_000;

/**
 * Returns the sample that a value is; null when it is none. The schema decides. Only a sample as loggers send it is taken
 * without it: the schema takes ten times as long, and hundreds come in a second.
 */
export function sampleOf(value: unknown): Sample | null {
  if (isPlain(value)) {
    value.engine ??= null;
    return value as Sample;
  }
  const judged = sampleSchema.safeParse(value);
  if (!judged.success) return null;
  if (names.size >= NAMES) names.clear();
  names.add(judged.data.channel);
  return judged.data;
}

type Plain = Omit<Sample, "engine"> & { engine?: number | null };

/** Returns true for what the schema takes and leaves as it is. */
function isPlain(value: unknown): value is Plain {
  if (typeof value !== "object" || value === null) return false;
  const { channel, engine, time, value: figure, unit } = value as Record<string, unknown>;
  let keys = 0;
  for (const _ in value) keys += 1;
  return (
    keys === (engine === undefined ? 4 : 5) &&
    typeof channel === "string" &&
    names.has(channel) &&
    (engine === undefined || engine === null || isWithin(engine, 1, 8)) &&
    isWithin(time, TIME.from, TIME.to) &&
    typeof figure === "number" &&
    Number.isFinite(figure) &&
    typeof unit === "string" &&
    unit.length >= 1 &&
    unit.length <= 20
  );
}

const isWithin = (figure: unknown, least: number, most: number): boolean =>
  Number.isInteger(figure) && (figure as number) >= least && (figure as number) <= most;

function fromJson(content: string): unknown {
  try {
    return JSON.parse(content);
  } catch {
    return null;
  }
}

/** A figure as a logger writes it: no hexadecimal, no blank, nothing that Number() would take for zero. */
const FIGURE = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;

/** No quoted cells: a channel's name that needs them is refused. */
function fromCsv(content: string): unknown {
  const cells = content.split(",");
  if (cells.length !== COLUMNS.length || content.includes('"')) return null;
  const [channel, engine = "", time = "", value = "", unit] = cells;
  const figure = (cell: string) => (FIGURE.test(cell) ? Number(cell) : cell);
  return {
    channel,
    engine: engine === "" ? null : figure(engine),
    time: figure(time),
    value: figure(value),
    unit,
  };
}
