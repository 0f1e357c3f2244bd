import { z } from "zod";
import { limitIn, secondsSchema, temperatureSchema } from "./limit.ts";

/**
 * Starter duty as published ladders give it: the nth engagement of a series may last `onMax` and is followed by
 * `rest`. After the last step the last step's rest applies. A rest of `resetAfter` starts a new series.
 */
const duty = {
  ladder: z
    .array(z.strictObject({ onMax: secondsSchema, rest: secondsSchema }))
    .min(1)
    .max(12),
  resetAfter: secondsSchema,
};

/**
 * The ladder at every temperature. With `colder` it applies above the last of its bands, which rise, each up to and
 * including its temperature. `heat` is an estimate in kelvins above ambient, shown beside the ladder and never instead
 * of it.
 */
export const starterSchema = z.strictObject({
  ...duty,
  /** Engagements since the engine last ran after which nobody tries again before the reason was looked for. */
  attempts: limitIn(["count"], 1, 10).optional(),
  colder: z
    .array(z.strictObject({ upTo: temperatureSchema, ...duty }))
    .min(1)
    .max(6)
    .optional(),
  heat: z
    .strictObject({
      /** Temperature rise of the motor if it stayed engaged for ever. */
      steady: limitIn(["K"], 1, 2000),
      /** Heat above which the motor is harmed. */
      most: limitIn(["K"], 1, 2000),
      /** Heat to which it should cool before the next engagement. */
      coolTo: limitIn(["K"], 1, 2000),
      tauOn: secondsSchema,
      tauOff: secondsSchema,
    })
    .optional(),
});
export type StarterRules = z.infer<typeof starterSchema>;
