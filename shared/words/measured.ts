import { measured as english, type MeasuredWords } from "./en/measured.ts";
import { measured as spanish } from "./es/measured.ts";
import type { Language } from "./language.ts";

const WORDS: Readonly<Record<Language, MeasuredWords>> = { en: english, es: spanish };

export const measuredWords = (language: Language): MeasuredWords => WORDS[language];
