import type { Language } from "../../shared/words/language.ts";
import { houseStarts as english, type HouseStartsWords } from "./en/houseStarts.ts";
import { houseStarts as spanish } from "./es/houseStarts.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the page. */
const WORDS: Readonly<Record<Language, HouseStartsWords>> = { en: english, es: spanish };

export const useHouseStartsWords = (): HouseStartsWords => WORDS[useWords().say.language];
