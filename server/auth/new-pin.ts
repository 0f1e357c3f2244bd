import { z } from "zod";
import { isGuessable } from "./guessable.ts";

/** A PIN somebody chooses. */
export const newPinSchema = z
  .string()
  .min(6, "must be at least 6 characters")
  .max(64, "must be at most 64 characters")
  .refine((pin) => !isGuessable(pin), "must not be one that many people use, such as 123456 or 121212");
