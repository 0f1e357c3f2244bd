import type { Language } from "./language.ts";

/** English dates day first, as on a ramp anywhere: "26 Nov 2026". */
const LOCALE: Readonly<Record<Language, string>> = { en: "en-GB", es: "es" };

const formats = new Map<string, Intl.DateTimeFormat>();

function format(language: Language, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${language} ${Object.keys(options).join()}`;
  const made =
    formats.get(key) ??
    new Intl.DateTimeFormat(LOCALE[language], { ...options, timeZone: "UTC", hourCycle: "h23" });
  formats.set(key, made);
  return made;
}

const DAY = { year: "numeric", month: "short", day: "numeric" } as const;
const CLOCK = { hour: "2-digit", minute: "2-digit" } as const;

/** The day in UTC of a server's time in milliseconds: "26 Nov 2026", "26 nov 2026". */
export const dayWords = (ms: number, language: Language): string => format(language, DAY).format(ms);

/** Day and minute in UTC: "26 Nov 2026, 14:05". */
export const dayAndMinute = (ms: number, language: Language): string =>
  format(language, { ...DAY, ...CLOCK }).format(ms);

/** Time of day in UTC to the second: "14:05:09". */
export const timeOfDay = (ms: number, language: Language): string =>
  format(language, { ...CLOCK, second: "2-digit" }).format(ms);

/** Day and second in UTC: "26 Nov 2026, 14:05:09". */
export const dayAndTime = (ms: number, language: Language): string =>
  format(language, { ...DAY, ...CLOCK, second: "2-digit" }).format(ms);
