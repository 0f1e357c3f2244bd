import type { Language } from "../../shared/words/language.ts";
import { planning as englishPlanning } from "./en/planning.ts";
import { stand as englishStand } from "./en/stand.ts";
import { planning as spanishPlanning } from "./es/planning.ts";
import { stand as spanishStand } from "./es/stand.ts";
import { useWords } from "./words.ts";

/** The words of a plan and of the stand's drawing. */
const english = { planning: englishPlanning, stand: englishStand };
export type PlannedWords = typeof english;

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, PlannedWords>> = {
  en: english,
  es: { planning: spanishPlanning, stand: spanishStand },
};

export const plannedWords = (language: Language): PlannedWords => WORDS[language];

export const usePlannedWords = (): PlannedWords => plannedWords(useWords().say.language);
