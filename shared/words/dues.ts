import type { Due } from "../dues/dues.ts";
import { dayWords } from "./dates.ts";
import { type DuesWords, dues as english } from "./en/dues.ts";
import { equipmentWords } from "./equipment.ts";
import { dues as spanish } from "./es/dues.ts";
import type { Language } from "./language.ts";
import type { Say } from "./say.ts";

/** Loaded later than the panel itself, so both languages come together. */
const WORDS: Readonly<Record<Language, DuesWords>> = { en: english, es: spanish };

export const duesWords = (language: Language): DuesWords => WORDS[language];

/** One due in words. */
export interface DueLine {
  whom: string;
  what: string;
  when: string;
  /** The document that requires it; null where the house's own rule is the source. */
  source: string | null;
}

export function dueLine(due: Due, say: Say): DueLine {
  const words = WORDS[say.language];
  switch (due.of) {
    case "person": {
      const what = words.atPost(due.name, say.post(due.post).toLowerCase());
      return {
        whom: due.who,
        what,
        when: dated(due, say),
        source: null,
      };
    }
    case "equipment": {
      const what = words.dated(due.name, equipmentWords(say.language).dates[due.date].toLowerCase());
      return {
        whom: due.label,
        what,
        when: dated(due, say),
        source: null,
      };
    }
    case "inspection": {
      const what = due.engine === null ? due.name : words.onEngine(due.name, due.engine);
      const when = inspected(due, say);
      return { whom: due.aircraft, what, when, source: due.source };
    }
    case "blades":
      return {
        ...{
          whom: due.aircraft,
          what: (due.engines.length > 1 ? words.blades : words.bladesOne)(due.engines.join(", ")),
        },
        ...{ when: words.beforeStart, source: null },
      };
  }
}

/** Returns how long an inspection still has, in its own measure. */
function inspected(due: Extract<Due, { of: "inspection" }>, say: Say): string {
  const words = WORDS[say.language];
  switch (due.by) {
    case "days":
      return day(due, words.neverDone, say);
    case "hours":
      return hours(due.hoursLeft, say);
    case "starts": {
      const { startsLeft: left } = due;
      if (left === null) return words.startsNotKnown;
      return left < 0 ? words.startsOver(-left) : words.startsLeft(left);
    }
  }
}

/** Returns the last day of a date that may bar. */
function dated(due: Extract<Due, { bars: boolean }>, say: Say): string {
  const words = WORDS[say.language];
  const when = day(due, words.noDate, say);
  return due.bars && due.is === "over" ? `${when}, ${words.bars}` : when;
}

function day({ until, is }: Due, unknown: string, { language }: Say): string {
  const words = WORDS[language];
  if (until === null) return unknown;
  const last = dayWords(until - 1, language);
  return is === "over" ? words.overSince(last) : words.until(last);
}

function hours(left: number | null, { language }: Say): string {
  const words = WORDS[language];
  if (left === null) return words.hoursNotKnown;
  const written = new Intl.NumberFormat(language, { maximumFractionDigits: 1 }).format(Math.abs(left));
  return left <= 0 ? words.hoursOver(written) : words.hoursLeft(written);
}
