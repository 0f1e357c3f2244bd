import { z } from "zod";

/** Control, bidirectional-override and invisible characters: they can hide or reorder what a person reads. */
const HIDDEN = /[\p{Cc}\u200B-\u200F\u202A-\u202E\u2060-\u2069\uFEFF\uFFFC]/u;

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
