/** The languages a person may choose, the first the one that is always there. */
export const LANGUAGES = ["en", "es"] as const;
export type Language = (typeof LANGUAGES)[number];

/** Each in its own words, and which way it is written. */
export const LANGUAGE: Readonly<Record<Language, { name: string; dir: "ltr" | "rtl" }>> = {
  en: { name: "English", dir: "ltr" },
  es: { name: "Español", dir: "ltr" },
};

/**
 * The language for a list of wishes, most wished first, as browsers give them ("es-CO", "en"). English for none.
 */
export function languageFor(wishes: readonly string[]): Language {
  const known = (wish: string) => LANGUAGES.find((l) => l === wish.toLowerCase().split("-")[0]);
  return wishes.map(known).find((l) => l !== undefined) ?? "en";
}
