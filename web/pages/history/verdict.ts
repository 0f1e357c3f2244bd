import type { FigureChart } from "../../../shared/history/charts/chart.ts";
import type { HistoryPageWords } from "../../words/en/history.ts";

/** Returns what a figure's charts say, in sentences, and whether the last start gives a signal. */
export function verdictOf(
  { era, limits, why, missing }: FigureChart,
  words: HistoryPageWords,
  day: (at: number) => string,
): { lines: string[]; signal: boolean } {
  const begun = words.since[era.cause](day(era.since));
  if (why === "tooFew") return { lines: [begun, words.tooFew(era.points.length, missing)], signal: false };
  if (why === "noSpread") return { lines: [begun, words.noSpread], signal: false };
  if (!limits) return { lines: [begun], signal: false };
  const last = era.points.at(-1);
  const { baseline, neighbours, trusted, signals } = limits;
  const rules = [...new Set(signals.filter((s) => s.point === last).map((s) => words.rules[s.rule]))];
  const [r, most] = [neighbours.r.toFixed(2), neighbours.most.toFixed(2)];
  const [from, to] = [baseline[0]?.at ?? 0, baseline.at(-1)?.at ?? 0];
  return {
    lines: [
      ...(trusted
        ? [rules.length > 0 ? words.signalled(rules.join(", ")) : words.quiet]
        : [words.notTrusted(r, most)]),
      `${begun} ${words.baseline(baseline.length, day(from), day(to))}${trusted ? ` ${words.trusted(r, most)}` : ""}`,
    ],
    signal: rules.length > 0,
  };
}
