import { useEffect, useMemo, useState } from "react";
import { type FigureChart, figureChart } from "../../../shared/history/charts/chart.ts";
import { definitionOf, HISTORY_FIGURE_IDS } from "../../../shared/history/figures.ts";
import { type EngineHistory, histories } from "../../net/history.ts";
import { useWidth } from "../../ui/charts/useWidth.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { FigureCharts } from "./FigureCharts.tsx";
import { Lives } from "./Lives.tsx";
import { Notes } from "./Notes.tsx";
import { SaveKey } from "./SaveKey.tsx";

/** One engine by its serial number: its notes, and each figure of its starts as charts on one common time. */
export function EnginePage({ serial }: { serial: string }) {
  const words = useHistoryWords();
  const { ramp } = useWords().text;
  const [engine, setEngine] = useState<EngineHistory | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [frame, width] = useWidth<HTMLDivElement>();
  useEffect(() => {
    histories.engine(serial).then(setEngine, setTrouble);
  }, [serial]);
  const charts = useMemo(() => (engine ? chartsOf(engine) : { judged: [], others: [] }), [engine]);
  const starts = engine?.rows.map((r) => r.at) ?? [];
  const common = { starts, from: starts[0] ?? 0, to: starts.at(-1) ?? 1, width };
  const aircraft = engine?.fitted?.aircraft;
  return (
    <SidePage
      title={words.engineTitle(serial)}
      lead={engine ? leadOf(engine, words) : ""}
      trouble={trouble}
      keys={
        <>
          {engine && <SaveKey of={{ serial }} onTrouble={setTrouble} />}
          {aircraft && (
            <button
              type="button"
              className="answer"
              data-tone="plain"
              onClick={() => go(`/aircraft/${encodeURIComponent(aircraft)}/history`)}
            >
              {words.aircraftHistory}
            </button>
          )}
        </>
      }
    >
      {engine === null && trouble === null && <p className="empty">{ramp.asking}</p>}
      <div className="history-body" ref={frame}>
        {engine && (
          <>
            <Notes notes={engine.notes} linked={false} />
            {engine.rows.length === 0 && <p className="empty">{words.none}</p>}
            {engine.more && <p>{words.more}</p>}
            {charts.judged.length > 0 && (
              <section className="history-charts" aria-label={words.charts}>
                <h2>{words.charts}</h2>
                {charts.judged.map((chart) => (
                  <FigureCharts key={chart.figure} chart={chart} {...common} />
                ))}
              </section>
            )}
            {charts.others.length > 0 && (
              <details className="history-others">
                <summary>
                  <h2>{words.others}</h2>
                </summary>
                <div className="history-charts">
                  {charts.others.map((chart) => (
                    <FigureCharts key={chart.figure} chart={chart} {...common} />
                  ))}
                </div>
              </details>
            )}
            <Lives only={["starter"]} onTrouble={setTrouble} />
          </>
        )}
      </div>
    </SidePage>
  );
}

function leadOf({ fitted, rows }: EngineHistory, words: ReturnType<typeof useHistoryWords>): string {
  const where = fitted ? words.fittedAt(fitted.n, fitted.aircraft) : words.fittedNowhere;
  const hours = fitted?.hours == null ? [] : [words.hours(fitted.hours.toFixed(1))];
  return [where, ...hours, words.startsOf(rows.length)].join(", ");
}

/** Returns the charts of an engine: those with limits, the ones that a note is about first, and the rest. */
function chartsOf({ rows, notes }: EngineHistory): Record<"judged" | "others", FigureChart[]> {
  const all = HISTORY_FIGURE_IDS.flatMap((figure) => figureChart(rows, figure) ?? []);
  const noted = (c: FigureChart) => (notes.some((n) => n.figure === c.figure) ? 0 : 1);
  return {
    judged: all.filter((c) => definitionOf(c.figure).judged).sort((a, b) => noted(a) - noted(b)),
    others: all.filter((c) => !definitionOf(c.figure).judged),
  };
}
