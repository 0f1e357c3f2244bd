import { memo, useEffect, useLayoutEffect, useRef, useState } from "react";
import type { Column, ExchangeRow } from "../../../shared/paper/exchange.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { useLaterWords } from "../../words/later.ts";

const LEFT = 96;
/** Least room for a post, drawing units; more where the column is wider. */
const LEAST_GAP = 66;
/** Within this distance of its end, the chart counts as scrolled to it, pixels. */
const AT_END = 24;
const ROW = 44;
/** Height of the arrow in its row. */
const LINE = 34;
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
  const atEnd = useRef(true);
  const [room, setRoom] = useState(0);
  useLayoutEffect(() => {
    if (!box.current) return;
    const seen = new ResizeObserver(([entry]) => setRoom(Math.floor(entry?.contentRect.width ?? 0)));
    seen.observe(box.current);
    return () => seen.disconnect();
  }, []);
  // Keep the newest row in view as rows are added, unless the person scrolled back to an earlier one.
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each new row
  useEffect(() => {
    if (box.current && atEnd.current) box.current.scrollTop = box.current.scrollHeight;
  }, [rows.length, room]);
  const used = columns.filter(
    (c) => c.id !== "none" || rows.some((r) => r.is !== "note" && r.from === "none"),
  );
  const shown = rows.slice(-newest);
  const gap = Math.max(LEAST_GAP, (room - LEFT) / used.length);
  const width = LEFT + gap * used.length;
  const ids = used.map((c) => c.id).join(" ");
  const x = placesOf(ids, gap);
  return (
    <div className="exchange-chart">
      <section
        className="exchange-scroll"
        aria-label={words.exchangeRegion}
        ref={box}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it
        tabIndex={0}
        onScroll={({ currentTarget: { scrollHeight, scrollTop, clientHeight } }) => {
          atEnd.current = scrollHeight - scrollTop - clientHeight < AT_END;
        }}
      >
        <svg width={width} height={HEAD} className="exchange-heads" aria-hidden="true">
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
            <text key={c.id} y={18} textAnchor="middle" className="exchange-post">
              {inTwo(c.name).map((part, i) => (
                <tspan key={part} x={x(c.id)} dy={i * 17}>
                  {part}
                </tspan>
              ))}
            </text>
          ))}
        </svg>
        <div role="img" aria-label={words.exchangeChart}>
          {shown.map((r) => (
            <Row key={r.seq} row={r} ids={ids} gap={gap} width={width} />
          ))}
        </div>
      </section>
    </div>
  );
}

/** Returns the function that gives the place of a line across the chart. @param ids of the lines, in order */
function placesOf(ids: string, gap: number): (id: string) => number {
  const all = ids.split(" ");
  return (id) => LEFT + gap * (all.indexOf(id) + 0.5);
}

interface RowProps {
  row: ExchangeRow;
  ids: string;
  gap: number;
  width: number;
}

/**
 * One row with its part of each line. Each is a drawing of its own: in one drawing of all rows the browser would place
 * every row's text anew for each new row.
 */
const Row = memo(function Row({ row, ids, gap, width }: RowProps) {
  const x = placesOf(ids, gap);
  return (
    <svg width={width} height={ROW} aria-hidden="true">
      {ids.split(" ").map((id) => (
        <line key={id} x1={x(id)} y1={0} x2={x(id)} y2={ROW} className="exchange-life" />
      ))}
      {row.is === "note" ? <Note row={row} x={x} width={width} /> : <Arrow row={row} x={x} width={width} />}
    </svg>
  );
});

interface DrawnProps<R> {
  row: R;
  x(id: string): number;
  width: number;
}

function Note({ row, x, width }: DrawnProps<Extract<ExchangeRow, { is: "note" }>>) {
  const text = short(row.text, (width - LEFT - 30) / LETTER);
  const wide = row.on === null ? width - LEFT - 8 : text.length * LETTER + 24;
  const centred = row.on === null ? LEFT : x(row.on) - wide / 2;
  const at = Math.max(LEFT, Math.min(centred, width - wide - 8));
  return (
    <g className="exchange-note" data-tone={row.tone}>
      <Time at={row.at} />
      <rect x={at} y={8} width={wide} height={ROW - 16} />
      <text x={at + 10} y={27}>
        {text}
      </text>
    </g>
  );
}

function Arrow({ row, x, width }: DrawnProps<Exclude<ExchangeRow, { is: "note" }>>) {
  const from = x(row.from);
  const ends = row.to.map(x).filter((e) => Number.isFinite(e) && e !== from);
  const mid = (from + (ends[0] ?? from)) / 2;
  const label = labelOf(row.by ? `${row.text} (${row.by})` : row.text, from, ends, width);
  return (
    <g className="exchange-arrow" data-is={row.is} data-tone={row.tone}>
      <Time at={row.at} />
      <circle cx={from} cy={LINE} r={5} />
      {ends.map((e) => (
        <line key={e} x1={from} y1={LINE} x2={e} y2={LINE} markerEnd="url(#head)" />
      ))}
      {row.is === "refused" && (
        <path d={`M${mid - 9} ${LINE - 9}l18 18M${mid + 9} ${LINE - 9}l-18 18`} className="exchange-cross" />
      )}
      <text x={label.x} y={22} textAnchor={label.anchor}>
        {label.text}
      </text>
    </g>
  );
}

function Time({ at }: { at: number }) {
  return (
    <text x={8} y={28} className="exchange-time">
      {timeOfDay(at)}
    </text>
  );
}

/** A label beside an arrow. */
interface Label {
  text: string;
  x: number;
  anchor: "start" | "end";
}

/**
 * Returns the label of an arrow: it starts at the one who speaks and runs with the arrow, or the other way when only
 * that leaves room for all of it.
 */
export function labelOf(text: string, from: number, ends: readonly number[], width: number): Label {
  const right = (width - from - 14) / LETTER;
  const left = (from - LEFT - 4) / LETTER;
  const withArrow = ends.some((e) => e > from) || ends.length === 0;
  const fits = (room: number) => text.length <= room;
  const goesRight = withArrow
    ? fits(right) || (!fits(left) && right >= left)
    : !fits(left) && (fits(right) || right > left);
  return goesRight
    ? { text: short(text, right), x: from + 8, anchor: "start" }
    : { text: short(text, left), x: from - 8, anchor: "end" };
}

/** Returns a name in at most two lines. */
function inTwo(name: string): string[] {
  const at = name.indexOf(" ");
  return at === -1 ? [name] : [name.slice(0, at), name.slice(at + 1)];
}

function short(text: string, room: number): string {
  return text.length <= room ? text : `${text.slice(0, Math.max(1, Math.floor(room) - 1)).trimEnd()}…`;
}
