import type { Language } from "../../shared/words/language.ts";
import { lists as english, type ListWords } from "./en/lists.ts";
import { lists as spanish } from "./es/lists.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages that use it. */
const WORDS: Readonly<Record<Language, ListWords>> = { en: english, es: spanish };

export const useListWords = (): ListWords => WORDS[useWords().say.language];
