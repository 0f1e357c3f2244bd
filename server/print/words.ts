import type { Language } from "../../shared/words/language.ts";
import { print as english, type PrintWords } from "./words/en.ts";
import { print as spanish } from "./words/es.ts";

const WORDS: Readonly<Record<Language, PrintWords>> = { en: english, es: spanish };

export const printWords = (language: Language): PrintWords => WORDS[language];
