import { z } from "zod";
import { engineSchema } from "./commands.ts";
import { unitSchema } from "./quantity.ts";

/** Readings of one moment that a fact holds: eight engines with ten gauges each. */
export const INSTRUMENT_READINGS = 80;

/** Readings of one gauge in one stretch of time: the last value, and the least and the most before it. */
export const instrumentReadingSchema = z.strictObject({
  gauge: z.string(),
  engine: engineSchema.optional(),
  value: z.number().finite(),
  least: z.number().finite(),
  most: z.number().finite(),
  unit: unitSchema,
});
export type InstrumentReading = z.infer<typeof instrumentReadingSchema>;

/** The samples that the readings were taken from, in a file beside the record. */
export const rawSamplesSchema = z.strictObject({
  /** SHA-256 of their lines in the file, hexadecimal. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  samples: z.number().int().min(1),
});
