import { runUpItems } from "./en/runUp.ts";
import { runUpChecks, runUpFaults } from "./en/runUpFaults.ts";
import { runUpItems as spanishItems } from "./es/runUp.ts";
import { runUpChecks as spanishChecks, runUpFaults as spanishFaults } from "./es/runUpFaults.ts";
import { workedInputs } from "./es/workedInputs.ts";
import { workedLaws } from "./es/workedLaws.ts";
import { workedWhy } from "./es/workedWhy.ts";
import type { Language } from "./language.ts";
import { phraseBook } from "./phraseBook.ts";
import { asEnglish, type Phrase, type PhraseBook } from "./piece.ts";

const pairs = <K extends string>(
  english: Readonly<Record<K, string>>,
  other: Readonly<Record<K, string>>,
  around: (words: string) => string = (words) => words,
): Phrase[] => (Object.keys(english) as K[]).map((key) => [around(english[key]), around(other[key])]);

/** The figures' own texts come first, because a fault found in a run-up may contain any name. */
const spanish = phraseBook([
  ...workedInputs,
  ...workedLaws,
  ...pairs(runUpItems, spanishItems),
  ...pairs(runUpChecks, spanishChecks),
  ["Run-up: {1}", "Prueba de motores: {1}"],
  ["Run-up of number {1}: {2}", "Prueba del motor {1}: {2}"],
  ...pairs(runUpFaults, spanishFaults, (words) => `{1} ${words}`),
  ...workedWhy,
]);

const BOOKS: Readonly<Record<Language, PhraseBook>> = { en: asEnglish, es: spanish };

/** Returns the phrases that translate the English inputs, laws and faults of worked-out figures. */
export const workedBook = (language: Language): PhraseBook => BOOKS[language];
