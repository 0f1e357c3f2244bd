export interface StripMarks {
  scale: { from: number; to: number };
  min?: number | undefined;
  normalLow?: number | undefined;
  normalHigh?: number | undefined;
  max?: number | undefined;
}

interface Props {
  marks: StripMarks;
  points: readonly { at: number; value: number }[];
  /** Time at the left and right edge, milliseconds. */
  from: number;
  to: number;
  /** Description for screen readers. */
  label: string;
}

const WIDE = 300;
const HIGH = 90;
const EDGE = 5;

/**
 * A strip of recorder paper: the normal band shaded, limits ruled, a dot for each reading, and a dashed line since
 * the last one.
 */
export function StripChart({ marks, points, from, to, label }: Props) {
  const { low, high } = reach(marks, points);
  const y = (v: number) => EDGE + (HIGH - 2 * EDGE) * (1 - (v - low) / (high - low));
  const x = (at: number) => Math.max(0, ((at - from) / (to - from)) * WIDE);
  const last = points.at(-1);
  const top = y(Math.min(marks.normalHigh ?? marks.max ?? high, high));
  const foot = y(Math.max(marks.normalLow ?? marks.min ?? low, low));
  return (
    <svg
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      preserveAspectRatio="none"
      className="strip-chart"
      role="img"
      aria-label={label}
    >
      <title>{label}</title>
      <rect x={0} y={top} width={WIDE} height={Math.max(0, foot - top)} className="strip-normal" />
      <path d={`M0 ${top}H${WIDE}M0 ${foot}H${WIDE}`} className="strip-normal-edge" />
      {[marks.min, marks.max]
        .filter((m) => m !== undefined)
        .map((m) => (
          <line key={m} x1={0} x2={WIDE} y1={y(m)} y2={y(m)} className="strip-limit" />
        ))}
      <polyline points={points.map((p) => `${x(p.at)},${y(p.value)}`).join(" ")} className="strip-line" />
      {last && (
        <line x1={x(last.at)} x2={WIDE} y1={y(last.value)} y2={y(last.value)} className="strip-since" />
      )}
      {points.map((p) => (
        <path key={p.at} d={`M${x(p.at)} ${y(p.value)}h0`} className="strip-dot" />
      ))}
    </svg>
  );
}

/** Returns the range to draw: limits and readings, extended by a tenth but never beyond the instrument's scale. */
function reach(marks: StripMarks, points: Props["points"]): { low: number; high: number } {
  const seen = [
    marks.min,
    marks.normalLow,
    marks.normalHigh,
    marks.max,
    ...points.map((p) => p.value),
  ].filter((v) => v !== undefined);
  const low = Math.min(...seen);
  const high = Math.max(...seen);
  const air = (high - low || 1) * 0.1;
  return { low: Math.max(marks.scale.from, low - air), high: Math.min(marks.scale.to, high + air) };
}
