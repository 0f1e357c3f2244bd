import type { Language } from "./language.ts";

/** English dates with the day first and the month in letters: nobody reads another day in them. */
const LOCALE: Readonly<Record<Language, string>> = { en: "en-GB", es: "es" };

const DAY = { year: "numeric", month: "short", day: "numeric" } as const;
const MINUTE = { hour: "2-digit", minute: "2-digit" } as const;
const SECOND = { ...MINUTE, second: "2-digit" } as const;

/** All by the server, in UTC, by a clock of 24 hours. */
function inUtc(options: Intl.DateTimeFormatOptions): (ms: number, language: Language) => string {
  const made = (locale: string) =>
    new Intl.DateTimeFormat(locale, { ...options, timeZone: "UTC", hourCycle: "h23" });
  const formats = { en: made(LOCALE.en), es: made(LOCALE.es) };
  return (ms, language) => formats[language].format(ms);
}

/** "26 Nov 2026" */
export const dayWords = inUtc(DAY);

/** "26 Nov 2026, 14:05" */
export const dayAndMinute = inUtc({ ...DAY, ...MINUTE });

/** "26 Nov 2026, 14:05:09" */
export const dayAndTime = inUtc({ ...DAY, ...SECOND });

const clock = inUtc(SECOND);

/** "14:05:09", written the same in every language of ours. */
export const timeOfDay = (ms: number): string => clock(ms, "en");
