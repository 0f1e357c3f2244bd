import { say as english } from "./en.ts";
import { say as spanish } from "./es.ts";
import type { Language } from "./language.ts";
import type { Say } from "./say.ts";

/** Every language, for parts of the program that load all of them: the server, and paper. */
export const SPOKEN: Readonly<Record<Language, Say>> = { en: english, es: spanish };
