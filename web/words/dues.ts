import type { Language } from "../../shared/words/language.ts";
import { type DuesPageWords, duesPage as english } from "./en/dues.ts";
import { duesPage as spanish } from "./es/dues.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page that uses it. */
const WORDS: Readonly<Record<Language, DuesPageWords>> = { en: english, es: spanish };

export const useDuesWords = (): DuesPageWords => WORDS[useWords().say.language];
