import type { FigureChart } from "../../../shared/history/charts/chart.ts";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";
import { RecordKey } from "./RecordKey.tsx";

interface Props {
  chart: FigureChart;
  name: string;
  unread: readonly number[];
  written(value: number): string;
}

/** A figure's starts as a table, the newest first: what the charts show, for those who do not see them. */
export function PointsTable({ chart, name, unread, written }: Props) {
  const words = useHistoryWords();
  const { language } = useWords().say;
  const { earlier, era, limits } = chart;
  const read = [...earlier.flatMap((e) => e.points), ...era.points];
  const rows = [
    ...read.map((p) => ({ at: p.at, value: written(p.value), session: p.session })),
    ...unread.map((at) => ({ at, value: words.notRead, session: null })),
  ].sort((a, b) => b.at - a.at);
  const rulesAt = (at: number) =>
    (limits?.signals ?? []).filter((s) => s.point.at === at).map((s) => words.rules[s.rule]);
  return (
    <details className="history-table">
      <summary>
        {words.table(name)}, {words.outOf(read.length, read.length + unread.length)}
      </summary>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.day}</th>
            <th scope="col">{name}</th>
            {limits && <th scope="col">{words.signals}</th>}
            <th scope="col">{words.record}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ at, value, session }) => (
            <tr key={`${at} ${session}`} data-signal={rulesAt(at).length > 0 || undefined}>
              <td>{dayAndMinute(at, language)}</td>
              <td className="history-figure">{value}</td>
              {limits && <td>{rulesAt(at).join(", ")}</td>}
              <td>{session !== null && <RecordKey session={session} at={at} />}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
