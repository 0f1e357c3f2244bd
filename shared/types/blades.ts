import { z } from "zod";
import { limitIn, secondsSchema, sourceSchema, temperatureSchema } from "./limit.ts";

const time = limitIn(["s", "min", "h"], 0, 1_000_000);
const count = z.number().positive().max(100);

/** One line of a rule, as `models/bladeCount.ts` reads it; the case's source is that of its count. */
const caseSchema = z.strictObject({
  idle: z.union([z.literal("always"), z.strictObject({ over: time }), z.strictObject({ from: time })]),
  air: z
    .union([z.strictObject({ below: temperatureSchema }), z.strictObject({ from: temperatureSchema })])
    .optional(),
  turn: z.union([
    z.strictObject({ revolutions: count, upTo: count.optional() }),
    z.strictObject({ blades: count, upTo: count.optional() }),
  ]),
  bouts: z.array(z.number().int().positive()).min(1).max(8).optional(),
  source: sourceSchema,
});

/** Due after a time whatever the air, always so many blades; a count holds as long as a run does. */
const simpleSchema = z.strictObject({
  dueAfter: z.strictObject({ value: z.number().positive(), unit: z.literal("s"), source: sourceSchema }),
  blades: z.strictObject({
    value: z.number().int().positive(),
    unit: z.literal("count"),
    source: sourceSchema,
  }),
});

/** By time stood and temperature. `holds`: how long a finished count stands. */
const ruleSchema = z.strictObject({
  method: z.enum(["hand", "starter", "either"]),
  cases: z.array(caseSchema).min(1).max(8),
  holds: secondsSchema,
});

/** When an engine's blades must be counted through, and how many. Sources disagree: the type chooses. */
export const bladeCountSchema = z.union([simpleSchema, ruleSchema]);
export type BladeCountRules = z.infer<typeof bladeCountSchema>;
