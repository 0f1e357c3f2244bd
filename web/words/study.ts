import type { Language } from "../../shared/words/language.ts";
import { study as english, type StudyWords } from "./en/study.ts";
import { study as spanish } from "./es/study.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, StudyWords>> = { en: english, es: spanish };

export const useStudyWords = (): StudyWords => WORDS[useWords().say.language];
