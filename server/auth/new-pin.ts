import { z } from "zod";
import { isGuessable } from "./guessable.ts";

/**
 * Returns the schema of a newly chosen PIN.
 * @param least fewest characters, from the settings
 */
export const newPinSchema = (least: number) =>
  z
    .string()
    .min(least, `must be at least ${least} characters`)
    .max(64, "must be at most 64 characters")
    .refine((pin) => !isGuessable(pin), "must not be one that many people use, such as 123456 or 121212");
