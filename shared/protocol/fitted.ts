import { z } from "zod";
import { engineSchema } from "./commands.ts";
import { line } from "./text.ts";

/** Hours of a part since it was new, as its log says. No piston engine or propeller reaches the limit. */
export const hoursSchema = z.number().min(0, "must not be below 0").max(200_000, "must be at most 200000");

/** A part that has a serial number and hours of its own; null for what nobody entered. */
const partSchema = z.strictObject({ serial: line(40).nullable(), hours: hoursSchema.nullable() });

/** The parts fitted at one engine's place. */
export const fittedSchema = z.strictObject({
  n: engineSchema,
  engine: partSchema,
  propeller: partSchema,
  /** The starter fitted there: its kind or serial number. */
  starter: line(60).nullable(),
});
export type Fitted = z.infer<typeof fittedSchema>;
