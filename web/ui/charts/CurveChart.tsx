/** A point of a curve. */
export interface CurvePoint {
  x: number;
  y: number;
}

interface Props {
  /** The greatest value across and up; both begin at 0. */
  most: CurvePoint;
  /** Steps that hold their value to the next. */
  steps: readonly CurvePoint[];
  /** A fitted law, and the two edges of its interval. */
  law: readonly CurvePoint[];
  low: readonly CurvePoint[];
  high: readonly CurvePoint[];
  /** Pixels across. */
  width: number;
  /** The words at both ends of each axis. */
  across: readonly [string, string];
  up: readonly [string, string];
}

const HIGH = 200;
const LEFT = 52;
const BELOW = 26;
const EDGE = 6;

/**
 * Steps as they were counted, with a fitted law and its interval where there is one. It is hidden from screen readers:
 * the words above it and the table below say the same.
 */
export function CurveChart({ most, steps, law, low, high, width, across, up }: Props) {
  const wide = Math.max(1, width - LEFT - EDGE);
  const x = (p: CurvePoint) => (LEFT + (wide * p.x) / Math.max(most.x, 1e-9)).toFixed(1);
  const y = (p: CurvePoint) => (EDGE + HIGH * (1 - Math.min(1, p.y / Math.max(most.y, 1e-9)))).toFixed(1);
  const line = (points: readonly CurvePoint[]) =>
    points.map((p, i) => `${i === 0 ? "M" : "L"}${x(p)} ${y(p)}`).join("");
  const stair = steps.map((p, i) => (i === 0 ? `M${x(p)} ${y(p)}` : `H${x(p)}V${y(p)}`)).join("");
  const band = high.length > 0 ? `${line(high)}${line([...low].reverse()).replace("M", "L")}Z` : "";
  const bottom = EDGE + HIGH;
  return (
    <svg
      className="trend curve"
      width={width}
      height={bottom + BELOW}
      viewBox={`0 0 ${width} ${bottom + BELOW}`}
      aria-hidden="true"
    >
      {band && <path className="trend-baseline" d={band} />}
      <path className="trend-frame" d={`M${LEFT} ${EDGE}V${bottom}H${LEFT + wide}`} />
      {law.length > 0 && <path className="trend-limit" d={line(law)} />}
      {stair && <path className="trend-run" d={`${stair}H${LEFT + wide}`} />}
      {([up[0], up[1]] as const).map((word, i) => (
        <text
          key={word}
          className="trend-word"
          x={LEFT - 6}
          y={i === 0 ? bottom : EDGE + 10}
          textAnchor="end"
        >
          {word}
        </text>
      ))}
      <text className="trend-word" x={LEFT} y={bottom + 18}>
        {across[0]}
      </text>
      <text className="trend-word" x={LEFT + wide} y={bottom + 18} textAnchor="end">
        {across[1]}
      </text>
    </svg>
  );
}
