import { z } from "zod";

/**
 * Characters that hide or reorder what a person reads: controls, bidirectional controls, line and paragraph separators,
 * all that Unicode draws as nothing (Default_Ignorable_Code_Point: joiners, fillers, variation selectors, tags), and the
 * empty Braille cell.
 */
const HIDDEN = /[\p{Cc}\p{Bidi_Control}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\uFFF9-\uFFFC\u2800]/u;

/**
 * Returns the schema of one line of free text, 1 to `max` characters. Markup is plain text here, because nothing of
 * ours renders it. It refuses control characters, characters that change the direction of writing, and lone surrogates,
 * with a message that says so.
 */
export function line(max: number) {
  return z
    .string()
    .trim()
    .min(1, "must not be empty")
    .max(max, `must be at most ${max} characters`)
    .refine((s) => !HIDDEN.test(s) && s.isWellFormed(), "must not hold control or invisible characters");
}

export const idSchema = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/, "must be a plain identifier");
