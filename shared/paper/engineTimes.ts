import { briefWords } from "../words/brief.ts";
import type { Language } from "../words/language.ts";
import { type Attempt, attemptAfter } from "./attempt.ts";
import type { Moment } from "./moments.ts";

/** One attempt, with its outcome in words. */
export type AttemptInWords = Omit<Attempt, "ended"> & { ended: { at: number; words: string } | null };

export interface EngineTimes {
  n: number;
  attempts: AttemptInWords[];
}

/** Returns every attempt at engine `n`, in order of time. */
export function engineTimes(moments: readonly Moment[], n: number, language: Language): EngineTimes {
  const attempts: Attempt[] = [];
  let now: Attempt | null = null;
  for (const moment of moments) {
    now = attemptAfter(now, moment, n);
    if (now?.ended) {
      attempts.push(now);
      now = null;
    }
  }
  const { ends } = briefWords(language);
  const inWords = (a: Attempt) => ({
    ...a,
    ended: a.ended && { at: a.ended.at, words: ends[a.ended.is] },
  });
  return { n, attempts: [...attempts, ...(now ? [now] : [])].map(inWords) };
}
