import type { FaultKind } from "../protocol/rehearsalFaults.ts";
import type { Compared, Comparison, Measures } from "../rehearsal/measures.ts";
import { dayAndMinute } from "./dates.ts";
import { debriefWords } from "./debrief.ts";
import { rehearsalWords } from "./rehearsed.ts";
import type { Say } from "./say.ts";

/** A comparison in words: a line for each measure, a column for this run and for each before it. */
export interface ComparedTable {
  title: string;
  /** Said in place of the table when there was no earlier run. */
  none: string | null;
  heads: string[];
  rows: { measure: string; cells: string[] }[];
}

/** Returns one person's runs side by side. */
export function sayCompared(
  { name, post, now, before }: Compared,
  say: Pick<Say, "language" | "post">,
): ComparedTable {
  const words = debriefWords(say.language);
  const { faults } = rehearsalWords(say.language);
  const title = words.comparedOf(name, say.post(post));
  if (before.length === 0) return { title, none: words.noEarlier, heads: [], rows: [] };
  const runs = [now, ...before.map(({ measures }) => measures)];
  const kinds = [...new Set(runs.flatMap(({ answered }) => Object.keys(answered) as FaultKind[]))];
  const row = (measure: string, cell: (run: Measures) => string) => ({ measure, cells: runs.map(cell) });
  const count = (measure: string, of: (run: Measures) => number) => row(measure, (run) => String(of(run)));
  const { measures } = words;
  return {
    title,
    none: null,
    heads: [words.thisRun, ...before.map(({ at }) => dayAndMinute(at, say.language))],
    rows: [
      ...kinds.map((kind) =>
        row(words.answerOf(faults[kind]), ({ answered }) => {
          const seconds = answered[kind];
          if (seconds === undefined) return words.didNotHappen;
          return seconds === null ? words.noAnswer : `${seconds.toFixed(1)} s`;
        }),
      ),
      count(measures.unnecessary, (run) => run.unnecessary),
      count(measures.wrongNumbers, (run) => run.wrongNumbers),
      count(measures.refused, (run) => run.refused),
      count(measures.stepsMissed, (run) => run.stepsMissed),
      count(measures.limits, (run) => run.limits),
      count(measures.alerts, (run) => run.alerts),
      row(measures.starterK, (run) => `${run.starterK} K`),
      row(measures.withoutOilS, (run) => `${run.withoutOilS} s`),
      count(measures.touches, (run) => run.touches[post] ?? 0),
    ],
  };
}

/** Returns why no run stands beside a rehearsal; null where some do, or where nobody asked. */
export function whyNotCompared(
  compared: Comparison | null,
  { language }: Pick<Say, "language">,
): string | null {
  const words = debriefWords(language);
  if (!compared) return null;
  if (compared.takenBack) return words.notCompared;
  return compared.people.length === 0 ? words.nobodyCompared : null;
}
