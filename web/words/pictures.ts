import type { Language } from "../../shared/words/language.ts";
import { pictures as english, type PictureWords } from "./en/pictures.ts";
import { pictures as spanish } from "./es/pictures.ts";
import { useWords } from "./words.ts";

/** Both languages in one chunk: it is fetched with the part that uses it. */
const WORDS: Readonly<Record<Language, PictureWords>> = { en: english, es: spanish };

export const pictureWords = (language: Language): PictureWords => WORDS[language];

export const usePictureWords = (): PictureWords => pictureWords(useWords().say.language);
