import { z } from "zod";
import { limitIn, secondsSchema, sourceSchema, temperatureSchema } from "./limit.ts";

const time = limitIn(["s", "min", "h"], 0, 1_000_000);
const count = z.number().positive().max(100);

const turnSchema = z.union([
  z.strictObject({ revolutions: count, upTo: count.optional() }),
  z.strictObject({ blades: count, upTo: count.optional() }),
]);

/** Turned anew after an attempt that failed, however short the engine stood: fuel may lie in a lower cylinder. */
const afterFailed = z.strictObject({ turn: turnSchema, source: sourceSchema }).optional();

/** One case of a rule in the form of `models/bladeCount.ts`. The source of its count is the source of the case. */
const caseSchema = z.strictObject({
  idle: z.union([z.literal("always"), z.strictObject({ over: time }), z.strictObject({ from: time })]),
  air: z
    .union([z.strictObject({ below: temperatureSchema }), z.strictObject({ from: temperatureSchema })])
    .optional(),
  turn: turnSchema,
  bouts: z.array(z.number().int().positive()).min(1).max(8).optional(),
  source: sourceSchema,
});

/**
 * The simple rule: due after a time in any air, always the same number of blades. A count lasts as long as a run does.
 */
const simpleSchema = z.strictObject({
  dueAfter: z.strictObject({ value: z.number().positive(), unit: z.literal("s"), source: sourceSchema }),
  blades: z.strictObject({
    value: z.number().int().positive(),
    unit: z.literal("count"),
    source: sourceSchema,
  }),
  afterFailed,
});

/** The rule by time stood and temperature. `holds`: how long a finished count stays valid. */
const ruleSchema = z.strictObject({
  method: z.enum(["hand", "starter", "either"]),
  cases: z.array(caseSchema).min(1).max(8),
  holds: secondsSchema,
  afterFailed,
});

/** The rule for counting an engine's blades: when, and how many. Sources disagree, so each type chooses. */
export const bladeCountSchema = z.union([simpleSchema, ruleSchema]);
export type BladeCountRules = z.infer<typeof bladeCountSchema>;
