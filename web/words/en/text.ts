import { keypad, language, signIn } from "./entry.ts";
import { caution, light } from "./seen.ts";
import { worked } from "./worked.ts";

/** What the panels themselves say, in English. Its shape is every language's. */
export const text = { signIn, language, keypad, caution, light, worked };

export type Text = typeof text;
