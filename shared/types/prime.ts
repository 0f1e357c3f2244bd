import { z } from "zod";
import { idSchema } from "../protocol/text.ts";
import { limitIn, temperatureSchema } from "./limit.ts";

const amount = limitIn(["count", "s"], 0, 60);

/**
 * The prime of one engine, in strokes of the pump (count) or seconds of the switch (s). With `colder` the amount applies
 * above the last of its bands, which rise, each up to and including its temperature. With `hot` another amount applies
 * while an engine stands no longer than `within` since it last ran.
 */
export const primeSchema = z.strictObject({
  amount,
  colder: z
    .array(z.strictObject({ upTo: temperatureSchema, amount }))
    .min(1)
    .max(6)
    .optional(),
  hot: z.strictObject({ within: limitIn(["s", "min", "h"], 0, 86_400), amount }).optional(),
  /** The gauge of each engine whose temperature decides. Without it, or unread, the air's decides. */
  gauge: idSchema.optional(),
});
export type PrimeRules = z.infer<typeof primeSchema>;
