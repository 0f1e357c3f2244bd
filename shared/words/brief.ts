import { type BriefWords, brief as english } from "./en/brief.ts";
import { brief as spanish } from "./es/brief.ts";
import type { Language } from "./language.ts";

const WORDS: Readonly<Record<Language, BriefWords>> = { en: english, es: spanish };

export const briefWords = (language: Language): BriefWords => WORDS[language];
