import { useSyncExternalStore } from "react";
import { say } from "../../shared/words/en.ts";
import type { Language } from "../../shared/words/language.ts";
import { LANGUAGE } from "../../shared/words/language.ts";
import { asEnglish, type PhraseBook } from "../../shared/words/phraseBook.ts";
import type { Say } from "../../shared/words/say.ts";
import { type Text, text } from "./en/text.ts";

/** All words a panel shows, in one language: a session's sentences, the panel's own, and the server's problems. */
export interface Words {
  say: Say;
  text: Text;
  problem: PhraseBook;
}

/** English is in the first chunk. Every other language is a chunk of its own, fetched when it is chosen. */
const english: Words = { say, text, problem: asEnglish };

let words = english;
const listeners = new Set<() => void>();
const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Returns the words of this window's language, for code outside components. */
export const wordsNow = (): Words => words;

/** Returns the words of this window's language. */
export function useWords(): Words {
  return useSyncExternalStore(subscribe, wordsNow);
}

/**
 * Switches this window to another language. Rejects, and keeps the present one, when that language cannot be fetched.
 */
export async function speak(language: Language): Promise<void> {
  words = language === "es" ? (await import("./spanish.ts")).spanish : english;
  const html = document.documentElement;
  html.lang = language;
  html.dir = LANGUAGE[language].dir;
  for (const listener of listeners) listener();
}
