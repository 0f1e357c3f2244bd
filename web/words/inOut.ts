import type { Language } from "../../shared/words/language.ts";
import { inOut as english, type InOutWords } from "./en/inOut.ts";
import { inOut as spanish } from "./es/inOut.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages that need it. */
const WORDS: Readonly<Record<Language, InOutWords>> = { en: english, es: spanish };

export const useInOutWords = (): InOutWords => WORDS[useWords().say.language];
