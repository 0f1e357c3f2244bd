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

const sampleSchema = z.strictObject({
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
  return lines.flatMap((content, i) => {
    if (content === "" || (form === "csv" && i === 0)) return [];
    const sample = content.length > LINE ? null : sampleSchema.safeParse(read(content));
    return [{ line: i + 1, sample: sample?.success ? sample.data : null }];
  });
}

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
