import type { Language } from "./language.ts";

/** English dates have the day first and the month in letters, so that nobody can confuse day and month. */
const LOCALE: Readonly<Record<Language, string>> = { en: "en-GB", es: "es" };

const DAY = { year: "numeric", month: "short", day: "numeric" } as const;
const MINUTE = { hour: "2-digit", minute: "2-digit" } as const;
const SECOND = { ...MINUTE, second: "2-digit" } as const;

/** Returns a writer of server time in UTC, on the 24-hour clock. */
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

/** "14:05:09", which every language here writes in the same way. */
export const timeOfDay = (ms: number): string => clock(ms, "en");
