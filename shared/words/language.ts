/** The languages a person may choose. The first is the fallback. */
export const LANGUAGES = ["en", "es"] as const;
export type Language = (typeof LANGUAGES)[number];

/** Each language's name in that language, and its direction of writing. */
export const LANGUAGE: Readonly<Record<Language, { name: string; dir: "ltr" | "rtl" }>> = {
  en: { name: "English", dir: "ltr" },
  es: { name: "Español", dir: "ltr" },
};

/**
 * Returns the language for a list of preferences, most preferred first, as browsers give them ("es-CO", "en"). English
 * when none matches.
 */
export function languageFor(wishes: readonly string[]): Language {
  const known = (wish: string) => LANGUAGES.find((l) => l === wish.toLowerCase().split("-")[0]);
  return wishes.map(known).find((l) => l !== undefined) ?? "en";
}
