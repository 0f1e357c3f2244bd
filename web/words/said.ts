import type { Language } from "../../shared/words/language.ts";
import { said as english, type SaidWords } from "./en/said.ts";
import { said as spanish } from "./es/said.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, SaidWords>> = { en: english, es: spanish };

export const saidWords = (language: Language): SaidWords => WORDS[language];
