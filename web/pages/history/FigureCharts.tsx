import type { FigureChart } from "../../../shared/history/charts/chart.ts";
import { dayWords } from "../../../shared/words/dates.ts";
import { historyWords } from "../../../shared/words/history.ts";
import { workedOut } from "../../../shared/words/quantity.ts";
import { lanesOf } from "../../ui/charts/lanes.ts";
import { TrendChart } from "../../ui/charts/TrendChart.tsx";
import { useUnits } from "../../ui/units.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { monthWords } from "./month.ts";
import { PointsTable } from "./PointsTable.tsx";
import { verdictOf } from "./verdict.ts";

interface Props {
  chart: FigureChart;
  /** Every start of the engine, so that one without a reading shows as a gap. */
  starts: readonly number[];
  from: number;
  to: number;
  width: number;
}

const HIGH = { starts: 190, average: 110, ranges: 80, sums: 110 } as const;

/** One figure of an engine: in words, as charts on the page's common time, and as a table. */
export function FigureCharts({ chart, starts, from, to, width }: Props) {
  const words = useHistoryWords();
  const { language } = useWords().say;
  const units = useUnits();
  const { figure, unit, era, earlier, limits } = chart;
  const name = historyWords(language).figures[figure];
  const written = (value: number) => workedOut(value, unit, units, figure === "voltsDifference");
  const month = (at: number) => monthWords(at, language);
  const read = new Set([...earlier, era].flatMap((e) => e.points.map((p) => p.at)));
  const unread = starts.filter((at) => !read.has(at));
  const lanes = lanesOf(chart, unread);
  const [first, last] = [limits?.baseline[0], limits?.baseline.at(-1)];
  const baseline = first && last ? { from: first.at, to: last.at } : null;
  const verdict = verdictOf(chart, words, (at) => dayWords(at, language));
  const shared = { from, to, unread, width, written, month, onOpen: opened };
  const [main, ...others] = lanes;
  const shownFirst = others.filter((l) => l.kind === "average");
  const folded = others.filter((l) => l.kind !== "average");
  return (
    <section className="figure-charts" aria-label={name} data-signal={verdict.signal || undefined}>
      <h3>{name}</h3>
      {verdict.lines.map((line) => (
        <p key={line} className="figure-words">
          {line}
        </p>
      ))}
      {width > 0 && main && (
        <figure>
          {limits && <figcaption>{words.lanes.starts}</figcaption>}
          <TrendChart lane={main} baseline={baseline} high={HIGH.starts} axis {...shared} />
        </figure>
      )}
      {width > 0 &&
        shownFirst.map((lane) => (
          <figure key={lane.kind}>
            <figcaption>{words.lanes[lane.kind]}</figcaption>
            <TrendChart lane={lane} baseline={null} high={HIGH[lane.kind]} axis={false} {...shared} />
          </figure>
        ))}
      {folded.length > 0 && (
        <details>
          <summary>{words.moreCharts}</summary>
          {width > 0 &&
            folded.map((lane) => (
              <figure key={lane.kind}>
                <figcaption>{words.lanes[lane.kind]}</figcaption>
                <TrendChart lane={lane} baseline={null} high={HIGH[lane.kind]} axis={false} {...shared} />
              </figure>
            ))}
        </details>
      )}
      <PointsTable chart={chart} name={name} unread={unread} written={written} />
    </section>
  );
}

function opened(session: string): void {
  go(`/session/${session}/record`);
}
