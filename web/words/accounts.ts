import type { Language } from "../../shared/words/language.ts";
import { type AccountWords, accounts as english } from "./en/accounts.ts";
import { accounts as spanish } from "./es/accounts.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page of the house. */
const WORDS: Readonly<Record<Language, AccountWords>> = { en: english, es: spanish };

export const useAccountWords = (): AccountWords => WORDS[useWords().say.language];
