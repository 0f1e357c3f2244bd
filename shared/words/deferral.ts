import { dayWords } from "./dates.ts";
import { type DeferralWords, deferral as english } from "./en/deferral.ts";
import { deferral as spanish } from "./es/deferral.ts";
import type { Language } from "./language.ts";

/** Loaded later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, DeferralWords>> = { en: english, es: spanish };

/**
 * Returns how long a deferral lasts, in words that follow "deferred".
 * @param until its last day, if it has one
 * @param starts starts that are left or were given, if it counts them
 */
export function deferralWords(until: string | null, starts: number | null, language: Language): string {
  const words = WORDS[language];
  const parts = [
    ...(until === null ? [] : [words.to(dayWords(Date.parse(until), language))]),
    ...(starts === null ? [] : [words.starts(starts)]),
  ];
  const [first = "", second] = parts;
  return second === undefined ? first : words.both(first, second);
}
