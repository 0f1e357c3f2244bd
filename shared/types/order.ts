import { z } from "zod";
import { idSchema } from "../protocol/text.ts";
import { factorIn, sourceSchema } from "./limit.ts";

const engineNumber = z.number().int().min(1).max(8);
const weight = factorIn(0, 1000);

/** Inputs of the advice on the start order. The habit is the type's `defaultOrder`. */
export const orderSchema = z.strictObject({
  /** Pairs whose order no advice may reverse. */
  mustPrecede: z
    .array(z.strictObject({ before: engineNumber, after: engineNumber, source: sourceSchema }))
    .max(16),
  /** Accessories that are wanted early, each with its weight. */
  needs: z.array(z.strictObject({ accessory: idSchema, weight })).max(8),
  /** The accessory that gives electrical power. */
  powerAccessory: idSchema,
  /**
   * Points for each: start before a wanted accessory works, metre walked, knot and pair whose downwind engine starts
   * first, metre from the receptacle before any engine gives power, and pair against the habit's order.
   */
  weights: z.strictObject({
    waitForAccessory: weight,
    walkMetre: weight,
    downwindFirstKnot: weight,
    powerMetre: weight,
    againstHabit: weight,
  }),
});
export type OrderData = z.infer<typeof orderSchema>;
