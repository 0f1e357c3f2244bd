import { LANGUAGES, type Language, languageFor } from "../../shared/words/language.ts";

/** The device's own storage, not the window's: a person finds their language again in every window. */
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

/** What this person last chose here, null while they have not. */
export const chosenBy = (person: string): Language | null => read(person) ?? null;

/** Where nobody is signed in: what was last chosen on this device, else what the browser asks for. */
export const usual = (): Language => read(null) ?? languageFor(navigator.languages);

/** A device that keeps nothing asks again. */
export function keep(language: Language, person: string | null): void {
  try {
    localStorage.setItem(KEY, language);
    if (person !== null) localStorage.setItem(keyOf(person), language);
  } catch {
    // Said in this window all the same.
  }
}
