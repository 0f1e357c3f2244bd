import { z } from "zod";
import { limitIn, secondsSchema } from "./limit.ts";

/**
 * Figures by which a start is measured from instruments' readings. A larger difference from what people said is pointed
 * out.
 */
export const measuredSchema = z.strictObject({
  /** Bus volts below which a starter counts as engaged. */
  starterBelow: limitIn(["V"], 1, 60),
  starterWithin: secondsSchema,
  voltsWithin: limitIn(["V"], 0.1, 20),
  oilWithin: secondsSchema,
});
