import type { Language } from "../../shared/words/language.ts";
import { types as english, type TypeWords } from "./en/types.ts";
import { types as spanish } from "./es/types.ts";
import { useWords } from "./words.ts";

/** Fetched later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, TypeWords>> = { en: english, es: spanish };

export const useTypeWords = (): TypeWords => WORDS[useWords().say.language];
