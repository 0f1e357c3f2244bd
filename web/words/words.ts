import { useSyncExternalStore } from "react";
import type { Language } from "../../shared/words/language.ts";
import { LANGUAGE } from "../../shared/words/language.ts";
import type { Words } from "./catalogue.ts";
import { english } from "./english.ts";

let words: Words = english;
const listeners = new Set<() => void>();
const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Returns the words of this window's language, for code outside components. */
export const wordsNow = (): Words => words;

/** Returns the words of this window's language. */
export function useWords(): Words {
  return useSyncExternalStore(subscribe, wordsNow, wordsNow);
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
