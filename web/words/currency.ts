import type { Language } from "../../shared/words/language.ts";
import { type CurrencyWords, currency as english } from "./en/currency.ts";
import { currency as spanish } from "./es/currency.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages that use it. */
const WORDS: Readonly<Record<Language, CurrencyWords>> = { en: english, es: spanish };

export const useCurrencyWords = (): CurrencyWords => WORDS[useWords().say.language];
