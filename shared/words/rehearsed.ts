import type { UnitChoice } from "../models/unitChoice.ts";
import type { Rehearsed } from "../protocol/rehearsedFact.ts";
import { rehearsal as english, type RehearsalWords } from "./en/rehearsal.ts";
import { rehearsal as spanish } from "./es/rehearsal.ts";
import type { Language } from "./language.ts";
import { writtenBoth } from "./quantity.ts";
import type { Say } from "./say.ts";

const WORDS: Readonly<Record<Language, RehearsalWords>> = { en: english, es: spanish };

/** Returns the words of a rehearsal's own events, in one language. */
export const rehearsalWords = (language: Language): RehearsalWords => WORDS[language];

/** Returns what a rehearsal's server said of the simulated world, in words. */
export function sayRehearsed(
  said: Rehearsed,
  say: Pick<Say, "language" | "post">,
  units: UnitChoice,
): string {
  const words = rehearsalWords(say.language);
  switch (said.is) {
    case "fault": {
      const what = words.faults[said.fault];
      return said.engine === undefined ? words.fault(what) : words.faultAt(what, said.engine);
    }
    case "mark":
      return words.mark(said.words, said.by.name);
    case "word":
      return words.word(say.post(said.post), said.words, said.by.name);
    case "suffered": {
      const written = (value: number) => writtenBoth({ value, unit: said.unit }, units);
      const found = words.figure(said.engine, words.suffered[said.what], written(said.found));
      return said.allowed === null ? found : `${found}, ${words.limit(written(said.allowed))}`;
    }
  }
}
