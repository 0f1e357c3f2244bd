import type { Language } from "../../shared/words/language.ts";
import { later as english, type LaterWords } from "./en/later.ts";
import { later as spanish } from "./es/later.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, LaterWords>> = { en: english, es: spanish };

export const laterWords = (language: Language): LaterWords => WORDS[language];

export const useLaterWords = (): LaterWords => laterWords(useWords().say.language);
