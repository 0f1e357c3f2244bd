import { LANGUAGES, type Language, languageFor } from "../../shared/words/language.ts";

/** Kept in local storage, not session storage, so that a person finds their language in every window. */
const KEY = "chockside.language";

const keyOf = (person: string | null) => (person === null ? KEY : `${KEY}.${person}`);

function read(person: string | null): Language | undefined {
  try {
    const kept = localStorage.getItem(keyOf(person));
    return LANGUAGES.find((l) => l === kept);
  } catch {
    return undefined;
  }
}

/** Returns the language this person last chose here, or null. */
export const chosenBy = (person: string): Language | null => read(person) ?? null;

/** Returns the language before sign-in: the last one chosen on this device, or else the browser's. */
export const usual = (): Language => read(null) ?? languageFor(navigator.languages);

/** Stores the choice. Without storage the device asks again. */
export function keep(language: Language, person: string | null): void {
  try {
    localStorage.setItem(KEY, language);
    if (person !== null) localStorage.setItem(keyOf(person), language);
  } catch {
    // Without storage the choice still holds in this window.
  }
}
