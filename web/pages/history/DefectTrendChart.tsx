import { useEffect, useState } from "react";
import type { DefectTrend } from "../../../shared/history/lives/defectTrend.ts";
import { dayWords } from "../../../shared/words/dates.ts";
import { histories } from "../../net/history.ts";
import { CurveChart } from "../../ui/charts/CurveChart.tsx";
import { useWidth } from "../../ui/charts/useWidth.ts";
import { useLivesWords } from "../../words/lives.ts";
import { useWords } from "../../words/words.ts";
import { FileKey } from "./FileKey.tsx";

/** Whether an aircraft's defects become rarer: in words, and as a chart. */
export function DefectTrendChart({ id, onTrouble }: { id: string; onTrouble(error: Error): void }) {
  const words = useLivesWords();
  const { language } = useWords().say;
  const [trend, setTrend] = useState<DefectTrend | null>(null);
  const [frame, width] = useWidth<HTMLElement>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once for each aircraft
  useEffect(() => {
    histories.defectTrend(id).then(setTrend, onTrouble);
  }, [id]);
  const day = (at: number) => dayWords(at, language);
  return (
    <section className="own" aria-label={words.defects} ref={frame}>
      <h2>{words.defects}</h2>
      {trend &&
        saidOf(trend, words, day).map((line) => (
          <p key={line} className="figure-words">
            {line}
          </p>
        ))}
      {trend && width > 0 && trend.from !== null && trend.defects.length > 0 && (
        <figure>
          <figcaption>{words.defectChartIs[trend.trend ? "fitted" : "counted"]}</figcaption>
          <CurveChart
            {...chartOf(trend, trend.from)}
            width={width}
            across={[day(trend.from), day(trend.to)]}
          />
        </figure>
      )}
      {trend && (
        <FileKey
          path={`/api/aircraft/${encodeURIComponent(id)}/defects/trend?as=csv`}
          name={`defects-${id}`}
          word={words.trendTable}
          onTrouble={onTrouble}
        />
      )}
    </section>
  );
}

function chartOf({ defects, trend, to }: DefectTrend, from: number) {
  const x = (at: number) => at - from;
  return {
    most: { x: to - from, y: defects.length },
    steps: [{ x: 0, y: 0 }, ...defects.map((d, i) => ({ x: x(d.at), y: i + 1 }))],
    law: (trend?.curve ?? []).map((p) => ({ x: x(p.at), y: p.count })),
    low: [],
    high: [],
    up: ["0", String(defects.length)] as const,
  };
}

/** Returns what is known of the defects, a sentence each. */
function saidOf(
  { from, defects, least, trend }: DefectTrend,
  words: ReturnType<typeof useLivesWords>,
  day: (at: number) => string,
): string[] {
  if (from === null) return [words.unwatched];
  const counted = words.defectsAre(defects.length, day(from));
  if (trend === null) return [counted, words.fewDefects(least)];
  const { value, low, high } = trend.exponent;
  return [
    `${counted} ${words.trendIs[trend.is]}`,
    words.exponent(value.toFixed(2), low.toFixed(2), high.toFixed(2)),
    `${words.laplace(trend.laplace.toFixed(2).replace("-", "−"))} ${words.between(trend.daysBetween.toFixed(0))}`,
  ];
}
