import { type Lane, type LanePoint, monthsBetween, reachOf } from "./lanes.ts";

interface Props {
  lane: Lane;
  /** Time at the left and right edge, the same in every chart of the page. */
  from: number;
  to: number;
  /** Starts on which the limits stand. */
  baseline: { from: number; to: number } | null;
  /** Starts at which nobody read the figure. */
  unread: readonly number[];
  /** Pixels across. */
  width: number;
  high: number;
  /** True where the months are written below. */
  axis: boolean;
  written(value: number): string;
  month(at: number): string;
  onOpen(session: string): void;
}

/** Room for the limits' figures at the right, and for the months below. */
const RIGHT = 86;
const BELOW = 24;
const EDGE = 6;
/** Pixels between two names of months. */
const MONTH = 88;
/** Half the width of such a name, so that the first one is not cut. */
const MONTH_HALF = 24;
/** Figures of limits closer than this would stand on each other. */
const LINE = 15;

/**
 * A strip of starts over time with the limits they are compared with. It is hidden from screen readers: the words above
 * it and the table below say the same. A start that a rule names is a diamond, not a dot.
 */
export function TrendChart({ lane, from, to, baseline, unread, width, high, axis, ...how }: Props) {
  const { written, month, onOpen } = how;
  const reach = reachOf(lane);
  const across = Math.max(1, width - RIGHT);
  const x = (at: number) => EDGE + ((at - from) / Math.max(1, to - from)) * (across - 2 * EDGE);
  const y = (value: number) =>
    EDGE + (high - 2 * EDGE) * (1 - (value - reach.low) / (reach.high - reach.low));
  const path = (points: readonly { at: number; value: number }[]) =>
    points.map((p, i) => `${i === 0 ? "M" : "L"}${x(p.at).toFixed(1)} ${y(p.value).toFixed(1)}`).join("");
  const tall = high + (axis ? BELOW : 0);
  const labels = apart(labelled(lane).map((l) => ({ ...l, at: y(l.value) })));
  return (
    <svg
      className="trend"
      data-lane={lane.kind}
      width={width}
      height={tall}
      viewBox={`0 0 ${width} ${tall}`}
      aria-hidden="true"
    >
      {baseline && (
        <rect
          className="trend-baseline"
          x={x(baseline.from) - EDGE}
          y={0}
          width={x(baseline.to) - x(baseline.from) + 2 * EDGE}
          height={high}
        />
      )}
      <path className="trend-frame" d={`M0 ${high}H${across}`} />
      {monthsBetween(from, to, Math.max(1, Math.floor(across / MONTH))).map((at) => (
        <g key={at}>
          <path className="trend-month" d={`M${x(at)} 0V${high}`} />
          {axis && (
            <text className="trend-word" x={Math.max(x(at), MONTH_HALF)} y={high + 17} textAnchor="middle">
              {month(at)}
            </text>
          )}
        </g>
      ))}
      {lane.lines.map((l, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the lines of a lane keep their order
        <path key={i} className="trend-limit" data-is={l.is} d={path(l.points)} />
      ))}
      {labels.map(({ is, value, at }) => (
        <text key={`${is} ${value}`} className="trend-word" data-is={is} x={across + 6} y={at + 4}>
          {written(value)}
        </text>
      ))}
      {unread.map((at) => (
        <path key={at} className="trend-unread" d={`M${x(at)} ${high - 8}v8`} />
      ))}
      {lane.runs.map((run) => (
        <path key={`${run[0]?.session} ${run[0]?.value}`} className="trend-run" d={path(run)} />
      ))}
      {lane.runs.flat().map((p) => (
        <Point key={`${p.session} ${p.at} ${p.value}`} point={p} x={x(p.at)} y={y(p.value)} onOpen={onOpen} />
      ))}
    </svg>
  );
}

interface PointProps {
  point: LanePoint;
  x: number;
  y: number;
  onOpen(session: string): void;
}

/** One start: a touch opens its record. The keyboard reaches the same record in the table. */
function Point({ point: { session, signal }, x, y, onOpen }: PointProps) {
  return (
    <a
      href={`/session/${session}/record`}
      tabIndex={-1}
      className="trend-point"
      data-signal={signal || undefined}
      onClick={(e) => {
        e.preventDefault();
        onOpen(session);
      }}
    >
      <circle className="trend-touch" cx={x} cy={y} r={11} />
      {signal ? (
        <path d={`M${x} ${y - 8}l8 8l-8 8l-8 -8Z`} />
      ) : (
        <circle className="trend-dot" cx={x} cy={y} r={3.5} />
      )}
    </a>
  );
}

/** Returns the values to write at the right: those of the lines, or without lines the least and the most read. */
function labelled({ lines, runs }: Lane): { is: string; value: number }[] {
  const ends = lines.flatMap((l) => {
    const value = l.points.at(-1)?.value;
    return value === undefined ? [] : [{ is: l.is as string, value }];
  });
  if (ends.length > 0) return ends;
  const values = runs.flat().map((p) => p.value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low === high ? [{ is: "mean", value: low }] : [low, high].map((value) => ({ is: "mean", value }));
}

/** Returns labels moved down where two would stand on each other. */
function apart<T extends { at: number }>(labels: readonly T[]): T[] {
  const placed: T[] = [];
  for (const label of [...labels].sort((a, b) => a.at - b.at)) {
    const least = (placed.at(-1)?.at ?? Number.NEGATIVE_INFINITY) + LINE;
    placed.push({ ...label, at: Math.max(label.at, least) });
  }
  return placed;
}
