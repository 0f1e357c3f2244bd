import { figures as english, type FigureWords } from "./en/figures.ts";
import { figures as spanish } from "./es/figures.ts";
import type { Language } from "./language.ts";
import type { Say } from "./say.ts";

/** Loaded later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, FigureWords>> = { en: english, es: spanish };

export const figureWords = (say: Say): FigureWords => WORDS[say.language];

/** Returns a figure's name by its words key; the key itself where it has no name. */
export function figureName(words: FigureWords, key: string): string {
  return (words.names as Readonly<Record<string, string>>)[key] ?? key;
}
