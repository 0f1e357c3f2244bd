import { z } from "zod";
import { limitIn, secondsSchema } from "./limit.ts";

/**
 * How a start is measured from what instruments read, and how far what people said may lie from it before the difference
 * is pointed out.
 */
export const measuredSchema = z.strictObject({
  /** Bus volts below which a starter counts as engaged. */
  starterBelow: limitIn(["V"], 1, 60),
  starterWithin: secondsSchema,
  voltsWithin: limitIn(["V"], 0.1, 20),
  oilWithin: secondsSchema,
});
