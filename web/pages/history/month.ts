import type { Language } from "../../../shared/words/language.ts";

const made = (locale: string) =>
  new Intl.DateTimeFormat(locale, { month: "short", year: "2-digit", timeZone: "UTC" });
const FORMATS: Readonly<Record<Language, Intl.DateTimeFormat>> = { en: made("en-GB"), es: made("es") };

/** Returns a month as an axis has it: "Mar 26". */
export function monthWords(at: number, language: Language): string {
  return FORMATS[language].format(at);
}
