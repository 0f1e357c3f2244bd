import type { Language } from "../../shared/words/language.ts";
import { person as english, type PersonWords } from "./en/person.ts";
import { person as spanish } from "./es/person.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, PersonWords>> = { en: english, es: spanish };

export const usePersonWords = (): PersonWords => WORDS[useWords().say.language];
