import { LOOK_ALIKES } from "../handSignals/lookAlikes.ts";
import type { HandSignal, SignalWords } from "../handSignals/signal.ts";
import { handSignals as english, type HandSignalWords } from "./en/handSignals.ts";
import { signals, handSignals as spanish, tells } from "./es/handSignals.ts";
import type { Language } from "./language.ts";

/** Loaded later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, HandSignalWords>> = { en: english, es: spanish };

export const handSignalWords = (language: Language): HandSignalWords => WORDS[language];

/** Returns a signal's own words; in English where a language has none for it. */
export function signalWords(signal: HandSignal, language: Language): SignalWords {
  return (language === "es" && signals[signal.key]) || signal;
}

/** Returns the difference within each group of look-alikes, in their order. */
export function tellsIn(language: Language): readonly string[] {
  return language === "es" ? tells : LOOK_ALIKES.map((l) => l.tell);
}
