import { z } from "zod";
import { idSchema } from "../protocol/text.ts";
import { factorIn, sourceSchema } from "./limit.ts";

const engineNumber = z.number().int().min(1).max(8);
const weight = factorIn(0, 1000);

/** Inputs of the advice on the start order. The habit is the type's `defaultOrder`. */
export const orderSchema = z.strictObject({
  /** Pairs no advice may turn round. */
  mustPrecede: z
    .array(z.strictObject({ before: engineNumber, after: engineNumber, source: sourceSchema }))
    .max(16),
  /** Accessories wanted alive early, each with its weight. */
  needs: z.array(z.strictObject({ accessory: idSchema, weight })).max(8),
  /** The accessory that gives electrical power. */
  powerAccessory: idSchema,
  /** Points for each start before a wanted accessory is alive, metre walked, knot and pair started downwind first,
   * metre from the receptacle before anything gives power, and pair turned round against the habit. */
  weights: z.strictObject({
    waitForAccessory: weight,
    walkMetre: weight,
    downwindFirstKnot: weight,
    powerMetre: weight,
    againstHabit: weight,
  }),
});
export type OrderData = z.infer<typeof orderSchema>;
