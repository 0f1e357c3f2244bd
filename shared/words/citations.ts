import { citations } from "./es/citations.ts";
import type { Language } from "./language.ts";
import { phraseBook } from "./phraseBook.ts";
import { asEnglish, type PhraseBook } from "./piece.ts";

/** A bare place in a document, such as "5.1" or "r.63(5)", is the same in every language. */
const BOOKS: Readonly<Record<Language, PhraseBook>> = { en: asEnglish, es: phraseBook(citations) };

/** Returns the phrases that put the sources of hand signals into the language. */
export const citedIn = (language: Language): PhraseBook => BOOKS[language];
