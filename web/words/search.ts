import type { Language } from "../../shared/words/language.ts";
import { search as english, type SearchWords } from "./en/search.ts";
import { search as spanish } from "./es/search.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page. */
const WORDS: Readonly<Record<Language, SearchWords>> = { en: english, es: spanish };

export const useSearchWords = (): SearchWords => WORDS[useWords().say.language];
