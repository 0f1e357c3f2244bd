import { z } from "zod";

/** A retention period in calendar months. */
export const months = z.coerce
  .number({ error: "must be a number of months" })
  .int("must be whole months")
  .min(1, "must be at least 1 month")
  .max(1_200, "must be at most 1200 months");

/** A whole number from 1 to `most`. */
export const countTo = (most: number) =>
  z.coerce
    .number({ error: "must be a number" })
    .int("must be a whole number")
    .min(1, "must be at least 1")
    .max(most, `must be at most ${most}`);
