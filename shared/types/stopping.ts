import { z } from "zod";
import { idSchema } from "../protocol/text.ts";
import { limitSchema, secondsSchema, sourceSchema } from "./limit.ts";

/** The rule for who reports a propeller still: the guard alone, or anybody but the person who stopped the engine. */
export const STILL_BY = ["guard", "another"] as const;

/** Fuel that is let into the oil before the engines are stopped, so that it is thin enough after a cold night. */
const oilDilutionSchema = z.strictObject({
  /** The check by which the cockpit gives the least temperature that the night is expected to have. */
  check: idSchema,
  /** From this temperature up, no dilution is needed. */
  noneFrom: limitSchema,
  /** Each step serves down to its temperature. */
  steps: z
    .array(z.strictObject({ downTo: limitSchema, percent: limitSchema, time: secondsSchema }))
    .min(1)
    .max(8),
  /** Oil pressure below which diluting is stopped. */
  leastPressure: limitSchema.optional(),
});
export type OilDilution = z.infer<typeof oilDilutionSchema>;

/** Rules for stopping the engines after they ran. */
export const stoppingSchema = z.strictObject({
  /** The order in which the engines are stopped. */
  order: z.array(z.number().int().min(1).max(8)).min(1).max(8),
  orderSource: sourceSchema,
  /** Idle before an engine is stopped. Where both are given, the later one governs. */
  coolDown: z
    .strictObject({
      /** Time at idle. */
      atIdle: secondsSchema.optional(),
      /** Figures that each engine's gauge must have come down to, read at idle. */
      gauges: z.array(z.strictObject({ gauge: idSchema, atMost: limitSchema })).max(4),
    })
    .optional(),
  oilDilution: oilDilutionSchema.optional(),
  still: z.strictObject({ by: z.enum(STILL_BY), source: sourceSchema }),
});
export type StoppingData = z.infer<typeof stoppingSchema>;
