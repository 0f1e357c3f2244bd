import type { Language } from "../../shared/words/language.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { asEnglish, type PhraseBook } from "../../shared/words/piece.ts";
import { parts as englishParts } from "./en/parts.ts";
import { types as english, type TypeWords } from "./en/types.ts";
import { parts as spanishParts } from "./es/parts.ts";
import { problemPhrases } from "./es/problemPhrases.ts";
import { typeFaults } from "./es/typeFaults.ts";
import { types as spanish } from "./es/types.ts";
import { useWords } from "./words.ts";

/**
 * Names of a type's parts and of values of its enumerations. A name missing here is derived from its name in the
 * schema.
 */
export type PartNames = Readonly<Record<string, string>>;

/** Both languages in one chunk: it is fetched after the panel itself. */
const WORDS: Readonly<Record<Language, TypeWords>> = { en: english, es: spanish };
const PARTS: Readonly<Record<Language, PartNames>> = { en: englishParts, es: spanishParts };
const FAULTS: Readonly<Record<Language, PhraseBook>> = {
  en: asEnglish,
  es: phraseBook([...typeFaults, ...problemPhrases]),
};

export const useTypeWords = (): TypeWords => WORDS[useWords().say.language];
export const usePartNames = (): PartNames => PARTS[useWords().say.language];

/** Returns the translations of faults in a type. Its checks write them in English. */
export const useTypeFaults = (): PhraseBook => FAULTS[useWords().say.language];
