import type { Language } from "../../shared/words/language.ts";
import { house as english, type HouseWords } from "./en/house.ts";
import { house as spanish } from "./es/house.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the pages that use it. */
const WORDS: Readonly<Record<Language, HouseWords>> = { en: english, es: spanish };

export const useHouseWords = (): HouseWords => WORDS[useWords().say.language];
