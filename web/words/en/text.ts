import { keypad, language, signIn } from "./entry.ts";

/** What the panels themselves say, in English. Its shape is every language's. */
export const text = { signIn, language, keypad };

export type Text = typeof text;
