import { useEffect, useRef } from "react";
import type { Column, ExchangeRow } from "../../../shared/paper/exchange.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { useLaterWords } from "../../words/later.ts";

const LEFT = 96;
const GAP = 140;
const ROW = 44;
/** Average width of a letter in the chart's text, drawing units. */
const LETTER = 8.2;
const HEAD = 44;

/** The exchange chart: a line per post, an arrow per signal, time downward, newest at the bottom. */
export function ExchangeChart({
  columns,
  rows,
  newest,
}: {
  columns: readonly Column[];
  rows: readonly ExchangeRow[];
  newest: number;
}) {
  const { record: words } = useLaterWords();
  const box = useRef<HTMLElement>(null);
  // Keep the newest row in view as rows are added.
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each new row
  useEffect(() => {
    if (box.current) box.current.scrollTop = box.current.scrollHeight;
  }, [rows.length]);
  const used = columns.filter(
    (c) => c.id !== "none" || rows.some((r) => r.is !== "note" && r.from === "none"),
  );
  const shown = rows.slice(-newest);
  const width = LEFT + GAP * used.length;
  const height = ROW * shown.length + 12;
  const x = (id: string) => LEFT + GAP * (used.findIndex((c) => c.id === id) + 0.5);
  return (
    <div className="exchange-chart">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <section className="exchange-scroll" aria-label={words.exchangeRegion} ref={box} tabIndex={0}>
        <svg width={width} height={HEAD} className="exchange-heads" aria-hidden="true">
          {used.map((c) => (
            <text key={c.id} x={x(c.id)} y={27} textAnchor="middle" className="exchange-post">
              {c.name}
            </text>
          ))}
        </svg>
        <svg
          viewBox={`0 0 ${width} ${height}`}
          width={width}
          height={height}
          role="img"
          aria-label={words.exchangeChart}
        >
          <title>{words.exchangeChart}</title>
          <defs>
            <marker
              id="head"
              viewBox="0 0 10 10"
              refX="9"
              refY="5"
              markerWidth="9"
              markerHeight="9"
              orient="auto-start-reverse"
            >
              <path d="M0 0L10 5L0 10z" className="exchange-head" />
            </marker>
          </defs>
          {used.map((c) => (
            <line key={c.id} x1={x(c.id)} y1={0} x2={x(c.id)} y2={height} className="exchange-life" />
          ))}
          {shown.map((r, i) => (
            <Row key={r.seq} row={r} y={ROW * i} x={x} width={width} />
          ))}
        </svg>
      </section>
    </div>
  );
}

function Row({ row, y, x, width }: { row: ExchangeRow; y: number; x(id: string): number; width: number }) {
  const time = (
    <text x={8} y={y + 28} className="exchange-time">
      {timeOfDay(row.at)}
    </text>
  );
  if (row.is === "note") {
    const text = short(row.text, (width - LEFT - 30) / LETTER);
    const wide = row.on === null ? width - LEFT - 8 : text.length * LETTER + 24;
    const centred = row.on === null ? LEFT : x(row.on) - wide / 2;
    const at = Math.max(LEFT, Math.min(centred, width - wide - 8));
    return (
      <g className="exchange-note" data-tone={row.tone}>
        {time}
        <rect x={at} y={y + 8} width={wide} height={ROW - 16} />
        <text x={at + 10} y={y + 27}>
          {text}
        </text>
      </g>
    );
  }
  const from = x(row.from);
  const ends = row.to.map(x).filter((e) => Number.isFinite(e) && e !== from);
  const left = Math.min(from, ...ends);
  const right = Math.max(from, ...ends);
  const line = y + 34;
  const mid = (from + (ends[0] ?? from)) / 2;
  return (
    <g className="exchange-arrow" data-is={row.is} data-tone={row.tone}>
      {time}
      <circle cx={from} cy={line} r={5} />
      {ends.map((e) => (
        <line key={e} x1={from} y1={line} x2={e} y2={line} markerEnd="url(#head)" />
      ))}
      {row.is === "refused" && (
        <path d={`M${mid - 9} ${line - 9}l18 18M${mid + 9} ${line - 9}l-18 18`} className="exchange-cross" />
      )}
      <text x={row.is === "refused" ? LEFT + 6 : left + 10} y={y + 22}>
        {short(
          row.by ? `${row.text} (${row.by})` : row.text,
          row.is === "refused" ? (width - LEFT) / LETTER : Math.max(24, (right - left) / LETTER),
        )}
      </text>
    </g>
  );
}

function short(text: string, room: number): string {
  return text.length <= room ? text : `${text.slice(0, Math.max(1, Math.floor(room) - 1)).trimEnd()}…`;
}
