import type { Language } from "../../shared/words/language.ts";
import { lives as english, type LivesWords } from "./en/lives.ts";
import { lives as spanish } from "./es/lives.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page. */
const WORDS: Readonly<Record<Language, LivesWords>> = { en: english, es: spanish };

export const useLivesWords = (): LivesWords => WORDS[useWords().say.language];
