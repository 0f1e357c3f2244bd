import { z } from "zod";
import { idSchema, line } from "../protocol/text.ts";
import { limitIn, limitSchema, secondsSchema, sourceSchema, temperatureSchema } from "./limit.ts";

/** Oil pressure after the engine catches: two independent limits. */
const timers = {
  firstIndication: z.strictObject({ atLeast: limitSchema, within: secondsSchema }),
  normal: z.strictObject({ atLeast: limitSchema, within: secondsSchema }),
};

const pointSchema = z.strictObject({
  degC: z.number().min(-60).max(200),
  mm2s: z.number().min(0.3).max(10_000_000),
});

/**
 * The limits at every temperature. With `colder` they apply above its last band; its bands rise, each up to its
 * temperature.
 */
export const oilSchema = z.strictObject({
  ...timers,
  colder: z
    .array(z.strictObject({ upTo: temperatureSchema, ...timers }))
    .min(1)
    .max(6)
    .optional(),
  /** The oil in use, given by two points of kinematic viscosity. */
  grade: z
    .strictObject({ name: line(40), points: z.tuple([pointSchema, pointSchema]), source: sourceSchema })
    .optional(),
  /** Viscosity above which the oil is too thick for cranking. */
  mostViscous: limitIn(["mm2/s"], 1, 1_000_000).optional(),
  /**
   * The engine is heated before its start in air colder than `below`; with `soak`, only after that time. `check` is the
   * type's check that records it as done.
   */
  preheat: z
    .strictObject({
      below: temperatureSchema,
      soak: limitIn(["s", "min", "h"], 0, 100_000).optional(),
      check: idSchema,
    })
    .optional(),
});
export type OilRules = z.infer<typeof oilSchema>;
