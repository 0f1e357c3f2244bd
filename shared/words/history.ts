import type { HistoryFigure } from "../history/figures.ts";
import type { HistoryNote } from "../history/notes.ts";
import { AS_READ, type UnitChoice } from "../models/unitChoice.ts";
import { dayWords } from "./dates.ts";
import { history as english, type HistoryWords } from "./en/history.ts";
import { history as spanish } from "./es/history.ts";
import type { Language } from "./language.ts";
import { workedOut } from "./quantity.ts";

const WORDS: Readonly<Record<Language, HistoryWords>> = { en: english, es: spanish };

export const historyWords = (language: Language): HistoryWords => WORDS[language];

/** Returns a note as one sentence: the engine, what it does otherwise than before, and the two figures. */
export function sayNote(
  { n, figure, side, unit, baseline, found }: HistoryNote,
  language: Language,
  units: UnitChoice = AS_READ,
): string {
  const words = historyWords(language);
  const value = (v: number) => workedOut(v, unit, units, figure === "voltsDifference");
  const day = (at: number) => dayWords(at, language);
  const said =
    found.is === "start"
      ? words.atLast(value(found.value), value(found.limit))
      : words.onAverage(value(found.value), day(found.since), value(found.usual));
  return words.note(
    n,
    doesOf(words, figure)[side],
    baseline.count,
    day(baseline.from),
    day(baseline.to),
    said,
  );
}

function doesOf({ does }: HistoryWords, figure: HistoryFigure): { high: string; low: string } {
  return Object.hasOwn(does, figure) ? does[figure as keyof typeof does] : does.other;
}
