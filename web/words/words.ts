import { useSyncExternalStore } from "react";
import { say } from "../../shared/words/en.ts";
import type { Language } from "../../shared/words/language.ts";
import { LANGUAGE } from "../../shared/words/language.ts";
import { asEnglish, type PhraseBook } from "../../shared/words/phraseBook.ts";
import type { Say } from "../../shared/words/say.ts";
import { type Text, text } from "./en/text.ts";

/** Everything a panel says, in one language: the session's sentences, the panel's own, and the server's problems. */
export interface Words {
  say: Say;
  text: Text;
  problem: PhraseBook;
}

/** Always there. Every other language is a piece of script of its own, fetched when it is wanted. */
const english: Words = { say, text, problem: asEnglish };

let words = english;
const listeners = new Set<() => void>();
const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** The words of the language this window speaks, for what is no component. */
export const wordsNow = (): Words => words;

/** The words of the language this window speaks. */
export function useWords(): Words {
  return useSyncExternalStore(subscribe, wordsNow);
}

/** Speaks another language from now on. Rejects, and goes on in the one it has, when that cannot be fetched. */
export async function speak(language: Language): Promise<void> {
  words = language === "es" ? (await import("./spanish.ts")).spanish : english;
  const html = document.documentElement;
  html.lang = language;
  html.dir = LANGUAGE[language].dir;
  for (const listener of listeners) listener();
}
