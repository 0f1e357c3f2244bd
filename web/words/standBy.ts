import type { Language } from "../../shared/words/language.ts";
import { standBy as english, type StandByWords } from "./en/standBy.ts";
import { standBy as spanish } from "./es/standBy.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, StandByWords>> = { en: english, es: spanish };

export const standByWords = (language: Language): StandByWords => WORDS[language];
