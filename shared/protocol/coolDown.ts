import { z } from "zod";
import { unitSchema } from "./quantity.ts";

/** One part of a cool-down that was short: the minutes at idle, or a gauge's figure. */
export const coolDownShortSchema = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("time"), allowed: z.number(), found: z.number(), unit: z.literal("s") }),
  z.strictObject({
    is: z.literal("gauge"),
    gauge: z.string(),
    allowed: z.number(),
    /** Null where nobody read it at idle. */
    found: z.number().nullable(),
    unit: unitSchema,
  }),
]);
export type CoolDownShort = z.infer<typeof coolDownShortSchema>;
