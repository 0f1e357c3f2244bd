import type { Language } from "../../shared/words/language.ts";
import { type DefectLifeWords, defectLife as english } from "./en/defectLife.ts";
import { defectLife as spanish } from "./es/defectLife.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page that uses it. */
const WORDS: Readonly<Record<Language, DefectLifeWords>> = { en: english, es: spanish };

export const useDefectLifeWords = (): DefectLifeWords => WORDS[useWords().say.language];
