import type { Language } from "../../shared/words/language.ts";
import { history as english, type HistoryPageWords } from "./en/history.ts";
import { history as spanish } from "./es/history.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages of the history. */
const WORDS: Readonly<Record<Language, HistoryPageWords>> = { en: english, es: spanish };

export const useHistoryWords = (): HistoryPageWords => WORDS[useWords().say.language];
